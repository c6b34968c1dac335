using System.Globalization;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Field.Pictures;

/// <summary>At most a year of one plan: bands of night, twilight and sun, direct light on the ridge, and the windows outlined.</summary>
internal sealed class SeasonPanel(SiteSeason season, IReadOnlyList<SeasonDay> days, IReadOnlyDictionary<SeasonDay, int> ranks, SeasonScale scale)
{
    /// <summary>Above the hours: title, ranks and months.</summary>
    public const double Above = 58;

    /// <summary>Below them: weekends and days.</summary>
    public const double Below = 34;

    private const double HeadingPx = 14;
    private const double EdgePx = 1.2;
    private const double WeekendHigh = 5;
    private const double LetterWide = 11;
    private const double RankApart = 16;
    private const int RanksShown = 10;

    public IEnumerable<Mark> Marks() =>
    [
        Title(), .. Hours(), .. Bands(), .. Months(), .. ClockChanges(), Weekends(), .. WeekdayLetters(), .. Ranks(),
    ];

    private Label Title()
    {
        var plan = season.Site.Plan;
        var clock = plan.Lookout?.Zone?.Id ?? "local mean solar time";
        return new Label($"{season.Site.Name}: bearings {plan.Span}, hours of {clock}", new Spot(scale.Left, scale.Top - 42), HeadingPx, Anchor.Start, SeasonInk.Ink);
    }

    private IEnumerable<Mark> Hours() =>
    [
        new Fill(SeasonInk.Night, [new Box(scale.Left, scale.Top, scale.Right - scale.Left, SeasonScale.HoursHigh)]),
        .. Enumerable.Range(0, 9).Select(i => 3 * i).Select(hour => new Label($"{hour:00}", new Spot(scale.Left - 6, scale.Y(hour) + 4), SeasonInk.Small, Anchor.End, SeasonInk.Ink)),
    ];

    // From the widest to the narrowest.
    private IEnumerable<Mark> Bands()
    {
        yield return new Fill(SeasonInk.Twilight, Boxes(day => day.Shape.Twilight));
        yield return new Fill(SeasonInk.SunUp, Boxes(day => day.Shape.SunUp));
        yield return new Fill(SeasonInk.RidgeLit, Boxes(day => day.Shape.RidgeLit));
        foreach (var hour in (int[])[6, 12, 18]) yield return new Line(new Spot(scale.Left, scale.Y(hour)), new Spot(scale.Right, scale.Y(hour)), SeasonInk.Rule);
        var windows = Boxes(day => [.. day.Windows.Select(window => window.Time)]);
        // Larger ones beneath: an outline around all that hang together.
        yield return new Fill(SeasonInk.WindowEdge, [.. windows.Select(box => new Box(box.X - EdgePx, box.Y - EdgePx, box.Width + (2 * EdgePx), box.Height + (2 * EdgePx)))]);
        yield return new Fill(SeasonInk.Window, windows);
    }

    private IReadOnlyList<Box> Boxes(Func<SeasonDay, IReadOnlyList<Interval>> of) =>
    [
        .. from day in days
           from interval in of(day)
           let top = scale.Y(scale.HoursOf(interval.Start, day.Date))
           let bottom = scale.Y(scale.HoursOf(interval.End, day.Date))
           where bottom > top
           select new Box(scale.X(day.Date), top, scale.DayWide, bottom - top),
    ];

    private IEnumerable<Mark> Months()
    {
        for (var start = scale.From; start <= scale.To; start = start.With(DateAdjusters.StartOfMonth).PlusMonths(1))
        {
            var end = LocalDate.Min(scale.To, start.With(DateAdjusters.EndOfMonth));
            if (start > scale.From) yield return Upright(scale.X(start), scale.Top - 14, scale.Bottom, SeasonInk.MonthRule);
            var (left, right) = (scale.X(start), scale.X(end.PlusDays(1)));
            var name = start.ToString(right - left > 70 ? "MMM uuuu" : "MMM", CultureInfo.InvariantCulture);
            if (right - left > 24) yield return Centred(name, (left + right) / 2, scale.Top - 4);
        }
    }

    private IEnumerable<Mark> ClockChanges()
    {
        foreach (var date in Dates().Where(scale.ClocksChange))
        {
            yield return Upright(scale.X(date), scale.Top, scale.Bottom + 12, SeasonInk.ClockChange);
            yield return Centred("clocks change", scale.X(date), scale.Bottom + 24);
        }
    }

    private Fill Weekends() => new(
        SeasonInk.Weekend, [.. Dates().Where(date => date.DayOfWeek is IsoDayOfWeek.Saturday or IsoDayOfWeek.Sunday).Select(date => new Box(scale.X(date), scale.Bottom + 3, scale.DayWide, WeekendHigh))]);

    private IEnumerable<Mark> WeekdayLetters() => scale.DayWide < LetterWide ? [] : Dates().SelectMany(date => (Mark[])
    [
        Centred($"{date.DayOfWeek}"[..1], scale.X(date) + (scale.DayWide / 2), scale.Bottom + 18),
        Centred($"{date.Day}", scale.X(date) + (scale.DayWide / 2), scale.Bottom + 29),
    ]);

    private IEnumerable<Mark> Ranks()
    {
        var taken = new List<double>();
        foreach (var day in days.Where(day => ranks[day] <= RanksShown && day.Best is not null).OrderBy(day => ranks[day]))
        {
            var x = scale.X(day.Date) + (scale.DayWide / 2);
            if (taken.Exists(other => Math.Abs(other - x) < RankApart)) continue;
            taken.Add(x);
            yield return Centred($"{ranks[day]}", x, scale.Top - 18);
            yield return Upright(x, scale.Top - 15, scale.Y(scale.HoursOf(day.Best!.Time.Start, day.Date)) - 3, SeasonInk.RankLine);
        }
    }

    private IEnumerable<LocalDate> Dates() => Enumerable.Range(0, Period.DaysBetween(scale.From, scale.To) + 1).Select(scale.From.PlusDays);

    private static Line Upright(double x, double top, double bottom, Pen pen) => new(new Spot(x, top), new Spot(x, bottom), pen);

    private static Label Centred(string text, double x, double y) => new(text, new Spot(x, y), SeasonInk.Small, Anchor.Middle, SeasonInk.Ink);
}
