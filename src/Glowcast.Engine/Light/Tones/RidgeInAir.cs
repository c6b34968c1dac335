namespace Glowcast.Engine.Light;

/// <summary>Whether the ridge can be told from the sky behind it.</summary>
/// <param name="Contrast">Of the median piece of the crest, by solid angle: (L − L_sky)/L_sky · t, negative where it is the darker.</param>
/// <param name="SeenShare">Of the crest, the share with at least <see cref="LeastContrast"/> either way.</param>
/// <remarks>Through even air to each piece's own distance, before the sky at the horizon; a ridge as bright as that sky is not seen either, however near.</remarks>
public sealed record RidgeInAir(double Contrast, double SeenShare)
{
    /// <summary>An eye in good light detects 2 % (AMS Glossary, meteorological range); to be recognised takes 5 %.</summary>
    public const double LeastContrast = 0.02;

    private const double Half = 0.5;

    /// <summary>Half of the crest or more stands out from the sky.</summary>
    public bool IsSeen => SeenShare >= Half;

    /// <summary>Between a fifth and four fifths of the crest stand out: by another look at the light it could be otherwise.</summary>
    internal bool IsClose => SeenShare is > 0.2 and < 0.8;

    /// <returns>Null where the picture shows no crest.</returns>
    public static RidgeInAir? Of(PictureTones tones)
    {
        ArgumentNullException.ThrowIfNull(tones);
        return Of(tones.Ground.Where(tone => tone.Role == PatchRole.Crest).Select(tone => (tone.Weight, tone.Contrast)));
    }

    /// <param name="pieces">Of crest: solid angle, and contrast against the sky.</param>
    /// <returns>Null without any.</returns>
    internal static RidgeInAir? Of(IEnumerable<(double Weight, double Contrast)> pieces)
    {
        var crest = pieces.Where(piece => piece.Weight > 0).OrderBy(piece => Math.Abs(piece.Contrast)).ToList();
        var all = crest.Sum(piece => piece.Weight);
        if (all <= 0) return null;
        var sum = 0.0;
        var median = crest.First(piece => (sum += piece.Weight) >= Half * all);
        return new RidgeInAir(median.Contrast, crest.Where(piece => Math.Abs(piece.Contrast) >= LeastContrast).Sum(piece => piece.Weight) / all);
    }
}
