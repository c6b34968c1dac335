using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Light;

/// <summary>What a piece of visible ground is in the picture.</summary>
public enum PatchRole
{
    /// <summary>Ridge within the crest band below its highest ground.</summary>
    Crest,

    /// <summary>Ridge below the crest band.</summary>
    Ridge,

    /// <summary>Visible ground nearer than the ridge, or the top of a cloud deck.</summary>
    Valley,
}

/// <summary>A piece of visible ground in the picture, whose light is worked out at the place seen at its middle altitude.</summary>
/// <param name="Column">Of the light chart.</param>
/// <param name="Ground">The place in its middle.</param>
/// <param name="Distance">From the lookout.</param>
/// <param name="Bottom">Apparent altitude of its lower edge in the picture.</param>
/// <param name="Top">Of its upper edge.</param>
/// <param name="Weight">Its solid angle [sr].</param>
/// <param name="JoinsNext">The next patch of the scene goes on from its lower edge, with no hidden ground between.</param>
public readonly record struct GroundPatch(
    int Column, PatchRole Role, Place Ground, Length Distance, Angle Bottom, Angle Top, double Weight, bool JoinsNext = false)
{
    /// <summary>The middles of equal parts of it, from the top down: which way ground faces changes faster than what stands in its way.</summary>
    public IReadOnlyList<Place> Parts { get; init; } = [];
}
