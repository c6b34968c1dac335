using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Decodes the parts A and B of a land station's TEMP message: the levels up to 100 hPa. Parts C and D, above
/// them, are passed over.</summary>
internal static partial class TempDecoder
{
    /// <exception cref="BadInputException">No such message, of more than one flight, or without a readable head.</exception>
    public static TempReport Decode(string text, string name)
    {
        ArgumentNullException.ThrowIfNull(text);
        var passedOver = new List<string>();
        var levels = new List<TempLevel>();
        TempHead? head = null;
        var read = new HashSet<char>();
        foreach (var part in PartsOf(text))
        {
            if (part.Letter is 'C' or 'D') passedOver.Add($"Part {part.Letter}, above 100 hPa, was passed over.");
            else if (part.Groups.Contains("NIL")) passedOver.Add($"Part {part.Letter} is NIL: the station sent no flight.");
            else if (!read.Add(part.Letter)) passedOver.Add($"A second part {part.Letter} was passed over.");
            else
            {
                var own = TempHead.Of(part, name);
                if (head is not null && (head.Station, head.Time) != (own.Station, own.Time))
                    throw new BadInputException(name, $"Holds parts of more than one flight (station {head.Station} and {own.Station}, day {head.Time.Day} {head.Time.Hour:00} UTC and day {own.Time.Day} {own.Time.Hour:00} UTC); give those of one.");
                // Only part A says up to which mandatory level there are winds.
                head = head is null || part.Letter == 'A' ? own : head;
                var levelReader = new TempPartReader(part, own, passedOver);
                levels.AddRange(part.Letter == 'A' ? levelReader.Mandatory() : levelReader.Significant());
            }
        }
        return head is null
            ? throw new BadInputException(name, "Has neither part A (TTAA) nor part B (TTBB) of a TEMP message.")
            : new TempReport(head.Station, head.Time, head.WindInKnots, head.HighestWindLevel, levels, passedOver);
    }

    internal static bool HasPart(string text) => PartMark().IsMatch(text);

    private static IEnumerable<TempPart> PartsOf(string text)
    {
        var marks = PartMark().Matches(text);
        for (var i = 0; i < marks.Count; i++)
        {
            var start = marks[i].Index + marks[i].Length;
            var body = text[start..(i + 1 < marks.Count ? marks[i + 1].Index : text.Length)];
            var end = body.IndexOf('=', StringComparison.Ordinal);
            yield return new TempPart(marks[i].Groups["part"].Value[0], (end < 0 ? body : body[..end]).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        }
    }

    [GeneratedRegex(@"\bTT(?<part>A)A\b|\bTT(?<part>B)B\b|\bTT(?<part>C)C\b|\bTT(?<part>D)D\b")]
    private static partial Regex PartMark();
}
