namespace Glowcast.Engine.Forecast;

/// <summary>What can spoil a stitched picture.</summary>
public enum SpoilerKind
{
    /// <summary>The axis of rotation is not upright.</summary>
    Levelling,

    /// <summary>The camera is turned about its own axis.</summary>
    Roll,

    /// <summary>The camera turns about a point beside the no-parallax point.</summary>
    Parallax,

    /// <summary>Near things are out of focus.</summary>
    Focus,

    Diffraction,

    /// <summary>Cloud moves between a frame and the one beside it.</summary>
    CloudSideways,

    /// <summary>Cloud moves between a frame and the one above or below it.</summary>
    CloudBetweenRows,
}

/// <summary>One thing that can spoil the picture, and how much.</summary>
/// <param name="Matters">False where it will not be noticed.</param>
/// <param name="Pixels">Of the stitched picture; for diffraction the width of the Airy disc; null where it is not a matter of pixels.</param>
/// <param name="Metres">The distance it is about; null where there is none.</param>
/// <param name="Sentence">What it does and what to do.</param>
public sealed record Spoiler(SpoilerKind What, bool Matters, double? Pixels, double? Metres, string Sentence);
