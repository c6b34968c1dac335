namespace Glowcast.Engine.Weather;

/// <summary>A WMO FM 35 TEMP message as a sounding: the levels of both parts by pressure. The message gives heights at
/// mandatory levels only; the profile works out the others.</summary>
internal sealed class TempFormat : ISoundingFormat
{
    public string Name => "WMO FM 35 TEMP message";

    public bool Recognises(string text) => TempDecoder.HasPart(text);

    public Sounding Read(string text, string name)
    {
        var report = TempDecoder.Decode(text, name);
        var hasPartB = report.Levels.Any(level => level.Part == 'B');
        return new Sounding(Name, [.. report.Levels.GroupBy(level => level.Level.PressureHPa).OrderByDescending(same => same.Key).Select(Together)])
        {
            Station = report.Station,
            DayAndHour = report.Time,
            PassedOver = hasPartB ? report.PassedOver
                : [.. report.PassedOver, "There is no part B (TTBB): part A alone has too few levels to show the top of a fog or a thin deck. Get part B too."],
        };
    }

    private static SoundingLevel Together(IGrouping<double, TempLevel> same) => new(
        same.Key, First(same, level => level.HeightM), First(same, level => level.TemperatureC), First(same, level => level.DewPointC),
        First(same, level => level.WindFromDeg), First(same, level => level.WindKt));

    private static double? First(IEnumerable<TempLevel> levels, Func<SoundingLevel, double?> figure) =>
        levels.Select(level => figure(level.Level)).FirstOrDefault(value => value is not null);
}
