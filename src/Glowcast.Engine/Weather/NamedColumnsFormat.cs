using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Weather;

/// <summary>Values separated by commas, semicolons or tabs, under names that say quantity and unit: <c>pressure_hPa</c>,
/// <c>geopotential height_m</c>, <c>temperature_C</c>, <c>dew point temperature_C</c>, <c>wind direction_degree</c>,
/// <c>wind speed_m/s</c>, or shorter ones such as <c>temp_c</c>. The newer form of the university listing is one of these.</summary>
/// <remarks>A column that is needed and does not name its unit is refused, not guessed.</remarks>
internal sealed partial class NamedColumnsFormat : ISoundingFormat
{
    private static readonly Dictionary<string, Quantity> Names = new()
    {
        ["pressure"] = Quantity.Pressure,
        ["pres"] = Quantity.Pressure,
        ["press"] = Quantity.Pressure,
        ["p"] = Quantity.Pressure,
        ["height"] = Quantity.Height,
        ["geopotentialheight"] = Quantity.Height,
        ["hght"] = Quantity.Height,
        ["altitude"] = Quantity.Height,
        ["z"] = Quantity.Height,
        ["temperature"] = Quantity.Temperature,
        ["temp"] = Quantity.Temperature,
        ["airtemperature"] = Quantity.Temperature,
        ["t"] = Quantity.Temperature,
        ["dewpoint"] = Quantity.DewPoint,
        ["dewpointtemperature"] = Quantity.DewPoint,
        ["dwpt"] = Quantity.DewPoint,
        ["td"] = Quantity.DewPoint,
        ["winddirection"] = Quantity.WindFrom,
        ["winddir"] = Quantity.WindFrom,
        ["wdir"] = Quantity.WindFrom,
        ["drct"] = Quantity.WindFrom,
        ["windspeed"] = Quantity.WindSpeed,
        ["wspd"] = Quantity.WindSpeed,
        ["wind"] = Quantity.WindSpeed,
    };

    /// <summary>What a table of one's own must look like.</summary>
    public const string Hint = "A CSV needs a line of headings with their units, such as pressure_hPa,height_m,temperature_C,dewpoint_C,winddirection_deg,windspeed_m/s.";

    private const int LongestHeading = 100;

    private static readonly char[] Separators = [',', ';', '\t'];

    public string Name => "CSV with named columns";

    public bool Recognises(string text)
    {
        var header = HeaderOf(text);
        return SeparatorOf(header) is { } separator && header.Split(separator).Count(heading => Names.ContainsKey(Split(heading).Name)) >= 2;
    }

    public Sounding Read(string text, string name)
    {
        var header = HeaderOf(text);
        var separator = SeparatorOf(header)!.Value;
        var headings = header.Split(separator);
        var columns = new SoundingColumns(name);
        foreach (var (i, heading) in headings.Index())
        {
            var (quantityName, unit) = Split(heading);
            if (Names.TryGetValue(quantityName, out var quantity)) columns.Add(quantity, i, $"'{Shortened.To80(heading.Trim())}'", unit);
        }
        columns.MustSuffice();

        var rows = Lines(text).Skip(1).Select(line => line.Split(separator)).ToList();
        var levels = new List<SoundingLevel>();
        var passedOver = new List<string>();
        foreach (var row in rows)
        {
            if (columns.LevelOf(i => WordOf(row, i, separator)) is { } level) levels.Add(level);
            else passedOver.Add($"A row without a pressure was passed over: '{Shortened.To80(string.Join(separator, row))}'.");
        }
        string First(string heading) => FirstOf(heading, headings, rows, separator);
        return new Sounding(Name, levels)
        {
            At = TimeOf(First("time")),
            Place = StationPlace.Of(SoundingColumns.Number(First("latitude")), SoundingColumns.Number(First("longitude"))),
            PassedOver = passedOver,
        };
    }

    private static string HeaderOf(string text) => Lines(text).FirstOrDefault("");

    private static IEnumerable<string> Lines(string text) =>
        text.Split('\n').Where(line => !string.IsNullOrWhiteSpace(line) && !line.StartsWith('#')).Select(line => line.TrimStart('\uFEFF'));

    private static char? SeparatorOf(string header) =>
        Separators.Where(header.Contains).OrderByDescending(mark => header.Count(letter => letter == mark)).Select(mark => (char?)mark).FirstOrDefault();

    /// <summary>A heading as quantity, in small letters only, and unit: its last word, unless all of it names a quantity.</summary>
    private static (string Name, string Unit) Split(string heading)
    {
        var plain = heading.Trim().Trim('"');
        if (plain.Length > LongestHeading) return ("", "");
        if (Names.ContainsKey(LettersOf(plain))) return (LettersOf(plain), "");
        var parts = NameAndUnit().Match(plain);
        return (LettersOf(parts.Groups["name"].Value), parts.Groups["unit"].Value);
    }

    private static string LettersOf(string text) => string.Concat(text.Where(char.IsLetter)).ToLowerInvariant();

    private static string WordOf(string[] row, int column, char separator)
    {
        var word = column < row.Length ? row[column].Trim().Trim('"') : "";
        return separator == ',' ? word : word.Replace(',', '.');
    }

    /// <summary>The first row of a column that has the same value all the way, such as the hour of launch or the place.</summary>
    private static string FirstOf(string heading, string[] headings, List<string[]> rows, char separator)
    {
        var column = Array.FindIndex(headings, other => other.Trim().Equals(heading, StringComparison.OrdinalIgnoreCase));
        return column >= 0 && rows.Count > 0 ? WordOf(rows[0], column, separator) : "";
    }

    private static Instant? TimeOf(string text)
    {
        var parsed = LocalDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd HH':'mm':'ss").Parse(text.Replace('T', ' ').TrimEnd('Z'));
        return parsed.Success ? parsed.Value.InUtc().ToInstant() : null;
    }

    [GeneratedRegex(@"^(?<name>.+?)[\s_\[(]+(?<unit>[^\s_\[\]()]+)[\])]?$")]
    private static partial Regex NameAndUnit();
}
