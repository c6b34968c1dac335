using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Why a beam is followed no farther.</summary>
public enum BeamEnd
{
    /// <summary>It is higher than any cloud.</summary>
    AboveCloud,

    /// <summary>It meets the sea, or ground at its level.</summary>
    Sea,

    /// <summary>The files cover no more ground.</summary>
    Files,

    /// <summary>The files have no level as high.</summary>
    Levels,

    /// <summary>500 km.</summary>
    Reach,
}

/// <summary>A stretch of a beam within cloud. Distances run along the ground from the lit place towards the sun.</summary>
/// <param name="OpticalDepth">Of the stretch.</param>
/// <param name="Cover">The greatest share of a cell that is under cloud there; null where the files do not say.</param>
/// <param name="Middle">Where the middle of the stretch lies.</param>
public sealed record CloudCrossing(Length From, Length To, Length FromHeight, Length ToHeight, double OpticalDepth, double? Cover, GeoPoint Middle);

/// <summary>What a model's cloud leaves of a sunbeam (docs/model.md, W17).</summary>
/// <param name="OpticalDepth">τ of all the cloud on the way.</param>
/// <param name="Share">e^−τ: what is left of the direct light.</param>
/// <param name="ClearChance">That the way leads between the clouds where cover is broken; null where the files give no cover.</param>
/// <param name="EndsAt">How far it was followed, and why no farther.</param>
public sealed record BeamThroughCloud(double OpticalDepth, double Share, double? ClearChance, IReadOnlyList<CloudCrossing> Crossings, Length EndsAt, BeamEnd End)
{
    /// <summary>The stretch that takes most; null in clear air.</summary>
    public CloudCrossing? Worst => Crossings.MaxBy(crossing => crossing.OpticalDepth);

    /// <summary>The share to be expected: between clouds all of the light, in them what they let through.</summary>
    public double ExpectedShare => ClearChance is { } clear ? clear + ((1 - clear) * Share) : Share;

    /// <summary>The way was followed to where no cloud can be.</summary>
    public bool IsWhole => End is BeamEnd.AboveCloud or BeamEnd.Reach;
}
