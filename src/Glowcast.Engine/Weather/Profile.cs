using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>A sounding fit to be judged: pressure falls and height rises from level to level, the first is the ground's,
/// and each has temperature and dew point.</summary>
/// <param name="Cleaned">What had to be left out or put right, in sentences.</param>
/// <param name="Gaps">Where the levels lie too far apart to show a deck, in sentences.</param>
public sealed record Profile(Sounding Sounding, IReadOnlyList<ProfileLevel> Levels, IReadOnlyList<string> Cleaned, IReadOnlyList<string> Gaps)
{
    internal const double LowerAirM = 3000;
    private const double WideGapM = 500;

    public ProfileLevel Surface => Levels[0];

    /// <exception cref="BadInputException">Too little of it is sound; says what was wrong.</exception>
    public static Profile Of(Sounding sounding, string name)
    {
        ArgumentNullException.ThrowIfNull(sounding);
        var cleaning = new ProfileCleaning(name);
        var levels = cleaning.Clean(sounding.Levels);
        return new Profile(sounding, levels, Shortened.To20([.. sounding.PassedOver, .. cleaning.Cleaned]), [.. GapsOf(levels)]);
    }

    /// <summary>Reads a sounding and cleans it.</summary>
    /// <param name="name">What the user knows it by, for faults.</param>
    /// <exception cref="BadInputException">It is no sounding, or too little of it is sound.</exception>
    public static Profile Read(string text, string name) => Of(SoundingFile.Read(text, name), name);

    /// <summary>The dew-point depression at a height, by straight lines between levels; null outside them.</summary>
    internal double? DepressionAt(double heightM)
    {
        for (var i = 1; i < Levels.Count; i++)
        {
            var (below, above) = (Levels[i - 1], Levels[i]);
            if (heightM < below.HeightM || heightM > above.HeightM) continue;
            return below.DepressionC + ((heightM - below.HeightM) / (above.HeightM - below.HeightM) * (above.DepressionC - below.DepressionC));
        }
        return null;
    }

    private static IEnumerable<string> GapsOf(List<ProfileLevel> levels)
    {
        for (var i = 1; i < levels.Count && levels[i - 1].HeightM < levels[0].HeightM + LowerAirM; i++)
        {
            if (levels[i].HeightM - levels[i - 1].HeightM > WideGapM)
                yield return $"There is no level between {levels[i - 1].HeightM:0} and {levels[i].HeightM:0} m: a deck that begins and ends there does not show.";
        }
    }
}
