using System.Globalization;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>Reads the station archives of IGRA 2: a header line for each flight, then its levels, all in fixed columns.</summary>
/// <remarks>Source: NOAA, Integrated Global Radiosonde Archive version 2, format description (igra2-data-format.txt, v2.2). Figures may touch, so lines are never split at blanks.</remarks>
internal static class IgraReader
{
    private const int LongestLine = 200;
    private const int MostLevels = 20_000;
    private const int LevelColumns = 51;

    /// <summary>The flights of an archive, one after the other.</summary>
    /// <param name="name">What the user knows it by, for faults.</param>
    /// <exception cref="BadInputException">It is no such archive, or damaged.</exception>
    public static IEnumerable<IgraFlight> Flights(TextReader text, string name)
    {
        var number = 0;
        while (Line() is { } head)
        {
            if (string.IsNullOrWhiteSpace(head)) continue;
            var flight = HeaderOf(head, $"{name} line {number}");
            var levels = new List<IgraLevel>(flight.Count);
            for (var i = 0; i < flight.Count; i++)
            {
                var line = Line() ?? throw new BadInputException(name, $"Ends within a flight: its header promises {flight.Count} levels, {i} are there. It is cut off: load it again.");
                if (LevelOf(line) is { } level) levels.Add(level);
            }
            yield return flight.Flight with { Levels = levels };
        }
        if (number == 0) throw new BadInputException(name, "Is empty; give a station archive of IGRA 2.");

        string? Line()
        {
            number++;
            return BoundedLine(text, $"{name} line {number}");
        }
    }

    private static string? BoundedLine(TextReader text, string where)
    {
        var line = new System.Text.StringBuilder();
        for (var any = false; ; any = true)
        {
            var letter = text.Read();
            if (letter < 0) return any || line.Length > 0 ? line.ToString() : null;
            if (letter == '\n') return line.ToString();
            if (letter != '\r') line.Append((char)letter);
            if (line.Length > LongestLine) throw new BadInputException(where, $"Is longer than {LongestLine} characters: this is no IGRA 2 archive.");
        }
    }

    private static (IgraFlight Flight, int Count) HeaderOf(string line, string where)
    {
        if (line is not ['#', ..] || line.Length < 36) throw new BadInputException(where, $"Must be the header of a flight, which begins with '#'; got '{Shortened.To80(line)}'.");
        var date = DateOf(line);
        var count = Whole(line, 33, 36);
        if (date is null || count is not (>= 0 and <= MostLevels)) throw new BadInputException(where, $"Is no header of a flight: its date or its number of levels cannot be; got '{Shortened.To80(line)}'.");
        var hour = Whole(line, 25, 26);
        var place = StationPlace.Of(Whole(line, 56, 62) / 10_000.0, Whole(line, 64, 71) / 10_000.0);
        return (new IgraFlight(line[1..12].Trim(), date.Value, hour is >= 0 and <= 23 ? hour : null, Whole(line, 28, 31) ?? 9999, place, []), count.Value);
    }

    private static LocalDate? DateOf(string line) =>
        Whole(line, 14, 17) is >= 1900 and <= 2200 and { } year && Whole(line, 19, 20) is >= 1 and <= 12 and { } month
        && Whole(line, 22, 23) is >= 1 and { } day && day <= DateTime.DaysInMonth(year, month) ? new LocalDate(year, month, day) : null;

    private static IgraLevel? LevelOf(string line)
    {
        if (line.Length < LevelColumns) line = line.PadRight(LevelColumns);
        if (Known(line, 10, 15) is not { } pascal || pascal <= 0) return null;
        var temperature = Known(line, 23, 27) / 10.0;
        return new IgraLevel(
            line[1] == '1', pascal / 100.0, Known(line, 17, 21), temperature, DewPoint(temperature, Known(line, 35, 39) / 10.0, Known(line, 29, 33) / 10.0),
            Known(line, 41, 45), Known(line, 47, 51) / 10.0 / 0.514444);
    }

    private static double? DewPoint(double? temperatureC, double? depressionC, double? relativePercent)
    {
        if (temperatureC is not { } warm) return null;
        if (depressionC is { } depression) return warm - depression;
        return relativePercent is > 0 and { } relative ? ModelHumidity.DewPointC(warm, relative, HumidityRule.OverWater, 0) : null;
    }

    /// <summary>−9999 is missing, −8888 was taken out by the archive's own checks.</summary>
    private static int? Known(string line, int first, int last) => Whole(line, first, last) is { } value and not (-9999 or -8888) ? value : null;

    private static int? Whole(string line, int first, int last) =>
        line.Length >= last && int.TryParse(line.AsSpan(first - 1, last - first + 1), NumberStyles.AllowLeadingSign | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out var number)
            ? number : null;
}

/// <summary>One level of a flight; what is missing is null.</summary>
internal readonly record struct IgraLevel(bool IsSurface, double PressureHPa, double? HeightM, double? TemperatureC, double? DewPointC, double? WindFromDeg, double? WindKt);

/// <summary>One flight of an archive.</summary>
/// <param name="Hour">That it stands for, UTC; null where the archive does not say.</param>
/// <param name="Release">HHMM; minutes of 99 are not known, and 9999 is nothing known.</param>
internal sealed record IgraFlight(string Station, LocalDate Date, int? Hour, int Release, GeoPoint? Place, IReadOnlyList<IgraLevel> Levels)
{
    private const int FewestComplete = 5;
    private const double ReachM = 3000;

    /// <summary>The hour that it stands for, or that it was released at; null where neither is known.</summary>
    public Instant? At => (Hour ?? (Release / 100 is < 24 and var released ? released : null)) is { } hour ? Date.AtMidnight().InUtc().ToInstant() + Duration.FromHours(hour) : null;

    /// <summary>Its levels with heights: reported ones, and others by the hypsometric equation from the last known height upward (docs/model.md, W5).</summary>
    /// <param name="elevationM">Of the station, for a surface without height; null where it is not known.</param>
    public IReadOnlyList<SoundingLevel> WithHeights(double? elevationM)
    {
        var surface = Levels.Where(level => level.IsSurface).Select(level => (double?)level.PressureHPa).FirstOrDefault();
        var levels = Levels.Where(level => surface is null || level.PressureHPa <= surface).OrderByDescending(level => level.PressureHPa).ToList();
        var heights = levels.ConvertAll(level => level.HeightM ?? (level.IsSurface ? elevationM : null));
        for (var i = 0; i < levels.Count; i++) heights[i] ??= Above(levels, heights, i);
        if (heights.FindIndex(height => height is not null) is > 0 and var first)
            for (var i = first - 1; i >= 0; i--) heights[i] ??= Below(levels, heights, i);
        return [.. levels.Select((level, i) => new SoundingLevel(level.PressureHPa, heights[i], level.TemperatureC, level.DewPointC, level.WindFromDeg, level.WindKt))];
    }

    public Sounding ToSounding(double? elevationM) => new("IGRA 2", WithHeights(elevationM)) { Station = Station, At = At, Place = Place };

    /// <summary>It has its surface, enough levels with temperature and dew point, and reaches 3 km over the ground.</summary>
    public bool IsUsable(IReadOnlyList<SoundingLevel> levels)
    {
        var complete = levels.Where(level => level is { HeightM: not null, TemperatureC: not null, DewPointC: not null }).ToList();
        return complete.Count >= FewestComplete && Levels.Any(level => level.IsSurface && level.PressureHPa == complete[0].PressureHPa)
            && complete.Max(level => level.HeightM) >= complete[0].HeightM + ReachM;
    }

    private static double? Above(List<IgraLevel> levels, List<double?> heights, int i)
    {
        if (levels[i].TemperatureC is null) return null;
        for (var below = i - 1; below >= 0; below--)
            if (heights[below] is { } height && levels[below].TemperatureC is not null) return height + ThicknessM(levels[below], levels[i]);
        return null;
    }

    private static double? Below(List<IgraLevel> levels, List<double?> heights, int i)
    {
        if (levels[i].TemperatureC is null) return null;
        for (var above = i + 1; above < levels.Count; above++)
            if (heights[above] is { } height && levels[above].TemperatureC is not null) return height - ThicknessM(levels[i], levels[above]);
        return null;
    }

    private static double ThicknessM(IgraLevel below, IgraLevel above) =>
        MoistAir.DryGasConstant / MoistAir.Gravity * (VirtualK(below) + VirtualK(above)) / 2 * Math.Log(below.PressureHPa / above.PressureHPa);

    private static double VirtualK(IgraLevel level) => MoistAir.VirtualTemperatureK(level.PressureHPa, level.TemperatureC!.Value, level.DewPointC);
}
