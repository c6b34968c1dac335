using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Makes a profile of reported levels: leaves out what cannot be, puts right what can be, and lists both.</summary>
internal sealed class ProfileCleaning(string name)
{
    private const int FewestLevels = 3;
    private const int MostExamples = 5;
    private const double LeastThicknessRatio = 0.9;
    private const double MostThicknessRatio = 1.1;

    private readonly List<string> cleaned = [];

    public IReadOnlyList<string> Cleaned => cleaned;

    /// <exception cref="BadInputException">Too little is left, or heights and pressures do not belong together.</exception>
    public List<ProfileLevel> Clean(IReadOnlyList<SoundingLevel> reported)
    {
        var possible = reported.Select(Possible).OfType<SoundingLevel>().ToList();
        var ordered = OncePerPressure(Ordered(possible));
        var measured = ordered.FindAll(level => level is { TemperatureC: not null, DewPointC: not null });
        if (ordered.Count > measured.Count) cleaned.Add($"{Levels(ordered.Count - measured.Count)} without temperature or dew point did not count.");
        var rising = Rising(Hypsometry.WithHeights(measured, name));
        if (rising.Count < FewestLevels)
            throw Refusal($"Has {Levels(rising.Count)} with pressure, temperature, dew point and a rising height; at least {FewestLevels} are needed.");
        // Levels that wind alone was reported for are no loss; of the others most must be sound.
        if (rising.Count * 2 < measured.Count || measured.Count * 2 < reported.Count(level => level.TemperatureC is not null))
            throw Refusal($"Has only {rising.Count} sound levels out of {reported.Count}: it is damaged, or not what it says.");
        RefuseOtherUnits(rising);
        return rising.ConvertAll(NotAboveSaturation);
    }

    private BadInputException Refusal(string message) => new(
        name, cleaned.Count == 0 ? message : $"{message} {string.Join(' ', cleaned.Take(MostExamples))}");

    /// <summary>The level without values that cannot be; null where its pressure cannot.</summary>
    private SoundingLevel? Possible(SoundingLevel level)
    {
        if (level.PressureHPa is not (>= 0.5 and <= 1100))
        {
            cleaned.Add($"A level at {level.PressureHPa:0.##} hPa cannot be and was left out.");
            return null;
        }
        return level with
        {
            HeightM = Within(level.HeightM, -500, 60_000, "height", "m", level),
            TemperatureC = Within(level.TemperatureC, -110, 60, "temperature", "°C", level),
            DewPointC = Within(level.DewPointC, -150, 45, "dew point", "°C", level),
            WindFromDeg = Within(level.WindFromDeg, 0, 360, "wind direction", "°", level),
            WindKt = Within(level.WindKt, 0, 350, "wind speed", "kt", level),
        };
    }

    private double? Within(double? value, double min, double max, string what, string unit, SoundingLevel level)
    {
        if (value is not { } number || (number >= min && number <= max)) return value;
        cleaned.Add($"At {level.PressureHPa:0.##} hPa a {what} of {number:0.##} {unit} cannot be and was left out.");
        return null;
    }

    private List<SoundingLevel> Ordered(List<SoundingLevel> levels)
    {
        var ordered = levels.OrderByDescending(level => level.PressureHPa).ToList();
        if (!ordered.SequenceEqual(levels)) cleaned.Add("The levels were not in the order of falling pressure; they were put into it.");
        return ordered;
    }

    private List<SoundingLevel> OncePerPressure(List<SoundingLevel> levels)
    {
        var once = levels.GroupBy(level => level.PressureHPa).Select(same => same.Aggregate(Filled)).ToList();
        if (once.Count < levels.Count) cleaned.Add($"{Levels(levels.Count - once.Count)} repeated a pressure; the first figures of each were kept.");
        return once;
    }

    private static SoundingLevel Filled(SoundingLevel first, SoundingLevel again) => first with
    {
        HeightM = first.HeightM ?? again.HeightM,
        TemperatureC = first.TemperatureC ?? again.TemperatureC,
        DewPointC = first.DewPointC ?? again.DewPointC,
        WindFromDeg = first.WindFromDeg ?? again.WindFromDeg,
        WindKt = first.WindKt ?? again.WindKt,
    };

    private List<ProfileLevel> Rising(IReadOnlyList<ProfileLevel> levels)
    {
        var rising = new List<ProfileLevel>();
        foreach (var level in levels)
        {
            if (rising.Count == 0 || level.HeightM > rising[^1].HeightM) rising.Add(level);
            else cleaned.Add($"The level at {level.PressureHPa:0.##} hPa does not stand higher than the one before it ({level.HeightM:0} m after {rising[^1].HeightM:0} m) and was left out.");
        }
        return rising;
    }

    private ProfileLevel NotAboveSaturation(ProfileLevel level)
    {
        if (level.DewPointC <= level.TemperatureC) return level;
        cleaned.Add($"At {level.PressureHPa:0.##} hPa the dew point {level.DewPointC:0.#} °C stood above the temperature {level.TemperatureC:0.#} °C and was lowered to it.");
        return level with { DewPointC = level.TemperatureC };
    }

    /// <summary>Feet that are called metres, or figures of another column, show in the thickness of the whole.</summary>
    private void RefuseOtherUnits(List<ProfileLevel> levels)
    {
        var (reportedM, computedM) = (levels[^1].HeightM - levels[0].HeightM, Hypsometry.ThicknessM(levels));
        if (reportedM / computedM is < LeastThicknessRatio or > MostThicknessRatio)
            throw Refusal($"Its heights do not go with its pressures and temperatures: {reportedM:0} m from bottom to top where {computedM:0} m would be right. Is a column in another unit?");
    }

    private static string Levels(int count) => count == 1 ? "1 level" : $"{count} levels";
}
