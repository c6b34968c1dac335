using System.Globalization;
using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Weather;

/// <summary>The listing that universities serve as text or web page: a title, a line of names, a line of units, columns of
/// seven characters.</summary>
/// <remarks>The same column stands for knots on older pages and for metres a second on newer ones: the line of units
/// decides, and without it nothing is read.</remarks>
internal sealed partial class TextListingFormat : ISoundingFormat
{
    private const int ColumnWidth = 7;

    private static readonly Dictionary<string, Quantity> Names = new(StringComparer.OrdinalIgnoreCase)
    {
        ["PRES"] = Quantity.Pressure,
        ["HGHT"] = Quantity.Height,
        ["TEMP"] = Quantity.Temperature,
        ["DWPT"] = Quantity.DewPoint,
        ["DRCT"] = Quantity.WindFrom,
        ["SKNT"] = Quantity.WindSpeed,
        ["SPED"] = Quantity.WindSpeed,
    };

    public string Name => "university text listing";

    public bool Recognises(string text) => NamesLine().IsMatch(text);

    public Sounding Read(string text, string name)
    {
        var lines = text.Split('\n');
        var names = Array.FindIndex(lines, line => NamesLine().IsMatch(line));
        var units = Array.FindIndex(lines, names + 1, line => !IsRule(line));
        if (units < 0 || SoundingColumns.Number(Words(lines[units]).FirstOrDefault("")) is not null)
            throw new BadInputException(name, "Has no line of units below its names: whether its wind is in knots or metres a second cannot be told. Take the listing with both lines.");
        var headings = Words(lines[names]);
        var columns = ColumnsOf(headings, Words(lines[units]), name);
        var passedOver = new List<string>();
        var levels = new List<SoundingLevel>();
        foreach (var line in lines.Skip(units + 1).SkipWhile(IsRule).TakeWhile(line => !EndOfTable().IsMatch(line)))
        {
            if (columns.LevelOf(WordsOf(line, headings.Length)) is { } level) levels.Add(level);
            else if (!string.IsNullOrWhiteSpace(line)) passedOver.Add($"A line without a pressure was passed over: '{Shortened.To80(line.Trim())}'.");
        }
        return new Sounding(Name, levels)
        {
            Station = StationOf(text),
            At = TimeOf(text),
            Place = PlaceOf(text),
            PassedOver = passedOver,
        };
    }

    private static SoundingColumns ColumnsOf(string[] headings, string[] units, string name)
    {
        if (units.Length != headings.Length)
            throw new BadInputException(name, $"Its line of units has {units.Length} words for {headings.Length} names; each column needs its unit.");
        var columns = new SoundingColumns(name);
        for (var i = 0; i < headings.Length; i++)
            if (Names.TryGetValue(headings[i], out var quantity)) columns.Add(quantity, i, headings[i], units[i]);
        columns.MustSuffice();
        return columns;
    }

    /// <summary>The words of a row by column: by place in the line, as blanks stand for missing values, unless no column is blank.</summary>
    private static Func<int, string> WordsOf(string line, int columns)
    {
        var words = Words(line);
        return words.Length == columns ? i => words[i] : i => line.Length > i * ColumnWidth
            ? line.Substring(i * ColumnWidth, Math.Min(ColumnWidth, line.Length - (i * ColumnWidth))).Trim()
            : "";
    }

    private static string? StationOf(string text) =>
        Title().Match(text) is { Success: true } older ? older.Groups["station"].Value.Trim()
        : NewerTitle().Match(text) is { Success: true } newer ? newer.Groups["station"].Value
        : null;

    private static Instant? TimeOf(string text)
    {
        var title = Title().Match(text) is { Success: true } older ? older : NewerTitle().Match(text);
        if (!title.Success) return null;
        var parsed = LocalDateTimePattern.CreateWithInvariantCulture("d MMM uuuu HH").Parse($"{title.Groups["date"].Value} {title.Groups["hour"].Value}");
        return parsed.Success ? parsed.Value.InUtc().ToInstant() : null;
    }

    private static GeoPoint? PlaceOf(string text) =>
        StationLatitude().Match(text) is { Success: true } latitude && StationLongitude().Match(text) is { Success: true } longitude
            ? StationPlace.Of(Degrees(latitude), Degrees(longitude))
            : null;

    private static double Degrees(Match match) => double.Parse(match.Groups["degrees"].Value, CultureInfo.InvariantCulture);

    private static string[] Words(string line) => line.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);

    private static bool IsRule(string line) => line.All(letter => letter is '-' || char.IsWhiteSpace(letter));

    [GeneratedRegex(@"^[^\S\n]*PRES[^\S\n]+HGHT[^\S\n]+TEMP\b", RegexOptions.Multiline | RegexOptions.IgnoreCase)]
    private static partial Regex NamesLine();

    [GeneratedRegex("</PRE>|Station information|^Description", RegexOptions.IgnoreCase)]
    private static partial Regex EndOfTable();

    [GeneratedRegex(@"(?<station>\b\w{4,5}\b[^\n<>]{0,60}?)\s+Observations at (?<hour>\d\d)Z (?<date>\d{1,2} [A-Z][a-z]{2} \d{4})")]
    private static partial Regex Title();

    [GeneratedRegex(@"Observations for Station (?<station>\w{1,10}) at (?<hour>\d\d) ?(UTC|Z) (?<date>\d{1,2} [A-Z][a-z]{2} \d{4})")]
    private static partial Regex NewerTitle();

    [GeneratedRegex(@"Station latitude:\s*(?<degrees>-?\d{1,2}(\.\d{1,6})?)", RegexOptions.IgnoreCase)]
    private static partial Regex StationLatitude();

    [GeneratedRegex(@"Station longitude:\s*(?<degrees>-?\d{1,3}(\.\d{1,6})?)", RegexOptions.IgnoreCase)]
    private static partial Regex StationLongitude();
}
