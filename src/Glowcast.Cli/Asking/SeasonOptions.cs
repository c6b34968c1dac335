using System.CommandLine;
using System.Globalization;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Cli.Asking;

/// <summary>Which days, hours and spans of a season are wanted, as written on a command line.</summary>
internal sealed class SeasonOptions
{
    private static readonly LocalTimePattern Hour = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    private static readonly IsoDayOfWeek[] Week = [.. Enumerable.Range(1, 7).Select(day => (IsoDayOfWeek)day)];

    private readonly Option<string[]> from = Ask.For("--from", "date", "First day of the range.");
    private readonly Option<string[]> to = Ask.For("--to", "date", "Last day of the range, at most five years later.");
    private readonly Option<string[]> weekdays = Ask.For("--weekdays", "days", "Only these days of the week, such as sat,sun.");
    private readonly Option<string[]> half = Ask.For("--half", "morning|evening", "Only light of this half of the day.");
    private readonly Option<string[]> hours = Ask.For("--hours", "from..to", "Only windows that begin between these local times, such as 06:30..10:00.");
    private readonly Option<string[]> spans = Ask.For("--span", "from..to", "Bearings in the place of the plans' own; may be given several times.");

    public IReadOnlyList<Option> All => [from, to, weekdays, half, hours, spans];

    /// <summary>The range; faults are noted.</summary>
    public (LocalDate From, LocalDate To) Range(Question asked)
    {
        var first = asked.Required(from, "a date such as 2026-10-01", TimeReader.Date);
        var last = asked.Required(to, "a date such as 2027-03-31", TimeReader.Date);
        var isRange = asked.Has(from) && asked.Has(to) && !asked.Faults.Any;
        if (isRange && (last < first || Period.DaysBetween(first, last) >= Season.MostDays))
            asked.Faults.Add(to.Name, $"Must be the same day as {from.Name} or up to five years later; got {Say.Iso(first)} to {Say.Iso(last)}.");
        return (first, last);
    }

    /// <summary>Empty where the plans' own spans are meant.</summary>
    public IReadOnlyList<BearingSpan> Spans(Question asked) =>
        [.. asked.Texts(spans).Select(text => asked.Try(() => Written.Span(text, spans.Name))).OfType<BearingSpan>()];

    public SeasonFilter Filter(Question asked)
    {
        var (notBefore, notAfter) = asked.Has(hours) ? asked.Optional(hours, Hours) : (SeasonFilter.All.NotBefore, SeasonFilter.All.NotAfter);
        return new SeasonFilter
        {
            Weekdays = asked.Optional(weekdays, Weekdays) ?? [],
            Half = asked.Has(half) ? asked.Optional(half, (text, field) => (DayHalf?)HalfOf(text, field)) : null,
            NotBefore = notBefore,
            NotAfter = notAfter,
        };
    }

    private static DayHalf HalfOf(string text, string field) => text switch
    {
        "morning" => DayHalf.Morning,
        "evening" => DayHalf.Evening,
        _ => throw new BadInputException(field, $"Must be morning or evening; got '{Shortened.To80(text)}'."),
    };

    private static IReadOnlyList<IsoDayOfWeek> Weekdays(string text, string field) => [.. text.Split(',').Select(word =>
    {
        var name = word.Trim();
        var day = name.Length < 2 ? IsoDayOfWeek.None : Week.FirstOrDefault(day => day.ToString().StartsWith(name, true, CultureInfo.InvariantCulture));
        return day != IsoDayOfWeek.None ? day : throw new BadInputException(field, $"Must be days of the week such as sat,sun; got '{Shortened.To80(name)}'.");
    })];

    private static (LocalTime From, LocalTime To) Hours(string text, string field)
    {
        var parts = text.Split("..");
        var times = parts.Select(part => Hour.Parse(part)).ToList();
        if (times.Count != 2 || !times.TrueForAll(time => time.Success)) throw new BadInputException(field, $"Must be two local times such as 06:30..10:00; got '{Shortened.To80(text)}'.");
        return times[0].Value <= times[1].Value
            ? (times[0].Value, times[1].Value)
            : throw new BadInputException(field, $"Must run from an earlier to a later time of the same day; got '{Shortened.To80(text)}'.");
    }
}
