using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Weather;

/// <summary>The table of a storm-forecast centre, between the marks %RAW% and %END%: pressure [hPa], height [m], temperature
/// and dew point [°C], wind [degrees, knots], with −9999 for missing values. Its units are fixed.</summary>
internal sealed partial class TableBetweenMarksFormat : ISoundingFormat
{
    private static readonly (Quantity Quantity, string Unit)[] Columns =
    [
        (Quantity.Pressure, "hpa"), (Quantity.Height, "m"), (Quantity.Temperature, "c"), (Quantity.DewPoint, "c"), (Quantity.WindFrom, "deg"), (Quantity.WindSpeed, "kt"),
    ];

    public string Name => "table between %RAW% and %END%";

    public bool Recognises(string text) => text.Contains("%RAW%", StringComparison.Ordinal);

    public Sounding Read(string text, string name)
    {
        var columns = new SoundingColumns(name);
        foreach (var (i, column) in Columns.Index()) columns.Add(column.Quantity, i, $"{i + 1}", column.Unit);
        var levels = new List<SoundingLevel>();
        var passedOver = new List<string>();
        foreach (var line in Table(text))
        {
            var words = line.Split(',', StringSplitOptions.TrimEntries);
            if (columns.LevelOf(i => i < words.Length ? words[i] : "") is { } level) levels.Add(level);
            else passedOver.Add($"A row without a pressure was passed over: '{Shortened.To80(line)}'.");
        }
        if (!text.Contains("%END%", StringComparison.Ordinal)) passedOver.Add("The table has no %END%: it may be cut off.");
        var title = Title().Match(text);
        return new Sounding(Name, levels)
        {
            Station = title.Success ? title.Groups["station"].Value : null,
            At = title.Success ? TimeOf(title.Groups["time"].Value) : null,
            PassedOver = passedOver,
        };
    }

    private static IEnumerable<string> Table(string text) => text.Split('\n')
        .SkipWhile(line => !line.Contains("%RAW%", StringComparison.Ordinal)).Skip(1)
        .TakeWhile(line => !line.Contains("%END%", StringComparison.Ordinal))
        .Where(line => !string.IsNullOrWhiteSpace(line));

    private static Instant? TimeOf(string text)
    {
        var parsed = LocalDateTimePattern.CreateWithInvariantCulture("yyMMdd'/'HHmm").Parse(text);
        return parsed.Success ? parsed.Value.InUtc().ToInstant() : null;
    }

    [GeneratedRegex(@"^\s*(?<station>\w{3,5})\s+(?<time>\d{6}/\d{4})\b", RegexOptions.Multiline)]
    private static partial Regex Title();
}
