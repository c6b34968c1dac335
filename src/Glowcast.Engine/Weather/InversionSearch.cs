namespace Glowcast.Engine.Weather;

/// <summary>Finds the inversions of the lowest 3000 m above the ground (docs/model.md, W6).</summary>
internal static class InversionSearch
{
    public const double LeastStrengthC = 1.0;
    public const double StrongC = 3.0;
    public const double LeastDepthM = 30;
    private const double MergeGapM = 100;
    private const double MergeDropC = 0.5;
    private const double NearGroundM = 100;
    private const double Rounding = 1e-6;

    /// <summary>From the lowest up; none is an ordinary answer.</summary>
    public static IReadOnlyList<Inversion> Of(Profile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        var levels = profile.Levels;
        return [.. Merged(Risings(levels), levels)
            .Where(rising => Counts(levels[rising.Base], levels[rising.Top]))
            .Select(rising => Describe(profile, rising.Base, rising.Top))];
    }

    /// <summary>Stretches over which the temperature rises or stays, each from where it first rises to its first highest value.</summary>
    private static IEnumerable<(int Base, int Top)> Risings(IReadOnlyList<ProfileLevel> levels)
    {
        var i = 0;
        while (i < levels.Count - 1 && levels[i].HeightM <= levels[0].HeightM + Profile.LowerAirM)
        {
            if (levels[i + 1].TemperatureC <= levels[i].TemperatureC)
            {
                i++;
                continue;
            }
            var end = i + 1;
            while (end + 1 < levels.Count && levels[end + 1].TemperatureC >= levels[end].TemperatureC) end++;
            var top = end;
            while (levels[top - 1].TemperatureC >= levels[end].TemperatureC) top--;
            yield return (i, top);
            i = end;
        }
    }

    /// <summary>Two with little between them, the upper one warmer, are one.</summary>
    private static List<(int Base, int Top)> Merged(IEnumerable<(int Base, int Top)> risings, IReadOnlyList<ProfileLevel> levels)
    {
        var merged = new List<(int Base, int Top)>();
        foreach (var rising in risings)
        {
            if (merged.Count > 0 && IsOne(levels[merged[^1].Top], levels[rising.Base], levels[rising.Top])) merged[^1] = (merged[^1].Base, rising.Top);
            else merged.Add(rising);
        }
        return merged;
    }

    private static bool IsOne(ProfileLevel lowerTop, ProfileLevel upperBase, ProfileLevel upperTop) =>
        upperBase.HeightM - lowerTop.HeightM <= MergeGapM
        && lowerTop.TemperatureC - upperBase.TemperatureC <= MergeDropC + Rounding
        && upperTop.TemperatureC > lowerTop.TemperatureC;

    private static bool Counts(ProfileLevel lower, ProfileLevel upper) =>
        upper.TemperatureC - lower.TemperatureC >= LeastStrengthC - Rounding && upper.HeightM - lower.HeightM >= LeastDepthM;

    private static Inversion Describe(Profile profile, int from, int to)
    {
        var levels = profile.Levels;
        return new Inversion(from == 0 ? InversionType.Surface : InversionType.Elevated, OriginOf(profile, from, to), levels[from], levels[to]);
    }

    private static InversionOrigin OriginOf(Profile profile, int from, int to)
    {
        var levels = profile.Levels;
        if (Enumerable.Range(from, to - from + 1).All(i => MoistLayerSearch.IsMoist(levels[i].DepressionC))
            && profile.DepressionAt(levels[to].HeightM + CloudDeck.OverLidM) is { } above && MoistLayerSearch.IsMoist(above)) return InversionOrigin.Frontal;
        if (levels[from].HeightM - profile.Surface.HeightM < NearGroundM) return InversionOrigin.Ground;
        return levels[to].DewPointC < levels[from].DewPointC && DryAir.LiesAbove(profile, levels[to].HeightM) ? InversionOrigin.Subsidence : InversionOrigin.Unclear;
    }
}

/// <summary>Dry air over an inversion: what keeps the deck's top sharp.</summary>
internal static class DryAir
{
    public const double LeastDepressionC = 5.0;
    public const double WithinM = 500;

    public static bool LiesAbove(Profile profile, double heightM) => profile.Levels.Any(level =>
        level.HeightM >= heightM && level.HeightM <= heightM + WithinM && level.DepressionC >= LeastDepressionC - 1e-6);
}
