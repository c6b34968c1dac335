using System.Globalization;
using System.Text;
using System.Xml.Linq;
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

    private const double LetterWide = 11;
    private const double RankApart = 16;
    private const int RanksShown = 10;

    public IEnumerable<XElement> Draw() =>
    [
        Title(), Hours(), .. Bands(), .. Months(), .. ClockChanges(), Weekends(), .. WeekdayLetters(), .. Ranks(),
    ];

    private XElement Title()
    {
        var plan = season.Site.Plan;
        var clock = plan.Lookout?.Zone?.Id ?? "local mean solar time";
        return Svg.Text(scale.Left, scale.Top - 42, $"{season.Site.Name}: bearings {plan.Span}, hours of {clock}", SeasonInk.Heading);
    }

    private XElement Hours() => Svg.Group(
        [
            Svg.Rect(scale.Left, scale.Top, scale.Right - scale.Left, SeasonScale.HoursHigh, SeasonInk.Night),
            .. Enumerable.Range(0, 9).Select(i => 3 * i).Select(hour => Svg.Text(scale.Left - 6, scale.Y(hour) + 4, $"{hour:00}", SeasonInk.Small, "end")),
        ]);

    // Each band in one path of many rectangles, from the widest to the narrowest.
    private IEnumerable<XElement> Bands()
    {
        yield return Svg.Path(Rectangles(day => day.Shape.Twilight), SeasonInk.Twilight);
        yield return Svg.Path(Rectangles(day => day.Shape.SunUp), SeasonInk.SunUp);
        yield return Svg.Path(Rectangles(day => day.Shape.RidgeLit), SeasonInk.RidgeLit);
        foreach (var hour in (int[])[6, 12, 18]) yield return Svg.Line(scale.Left, scale.Y(hour), scale.Right, scale.Y(hour), SeasonInk.Rule);
        var windows = Rectangles(day => [.. day.Windows.Select(window => window.Time)]);
        // Drawn twice: the outline shows only where the second leaves it, around all that hang together.
        yield return Svg.Path(windows, SeasonInk.WindowOutline);
        yield return Svg.Path(windows, SeasonInk.Window);
    }

    private string Rectangles(Func<SeasonDay, IReadOnlyList<Interval>> of)
    {
        var path = new StringBuilder();
        foreach (var day in days)
        {
            foreach (var interval in of(day))
            {
                var (top, bottom) = (scale.Y(scale.HoursOf(interval.Start, day.Date)), scale.Y(scale.HoursOf(interval.End, day.Date)));
                if (bottom > top) path.Append(CultureInfo.InvariantCulture, $"M{scale.X(day.Date):0.##} {top:0.##}h{scale.DayWide:0.##}v{bottom - top:0.##}h{-scale.DayWide:0.##}z");
            }
        }
        return path.ToString();
    }

    private IEnumerable<XElement> Months()
    {
        for (var start = scale.From; start <= scale.To; start = start.With(DateAdjusters.StartOfMonth).PlusMonths(1))
        {
            var end = LocalDate.Min(scale.To, start.With(DateAdjusters.EndOfMonth));
            if (start > scale.From) yield return Svg.Line(scale.X(start), scale.Top - 14, scale.X(start), scale.Bottom, SeasonInk.MonthRule);
            var (left, right) = (scale.X(start), scale.X(end.PlusDays(1)));
            var name = start.ToString(right - left > 70 ? "MMM uuuu" : "MMM", CultureInfo.InvariantCulture);
            if (right - left > 24) yield return Svg.Text((left + right) / 2, scale.Top - 4, name, SeasonInk.Small, "middle");
        }
    }

    private IEnumerable<XElement> ClockChanges()
    {
        for (var date = scale.From; date <= scale.To; date = date.PlusDays(1))
        {
            if (!scale.ClocksChange(date)) continue;
            yield return Svg.Line(scale.X(date), scale.Top, scale.X(date), scale.Bottom + 12, SeasonInk.ClockChange);
            yield return Svg.Text(scale.X(date), scale.Bottom + 24, "clocks change", SeasonInk.Small, "middle");
        }
    }

    private XElement Weekends()
    {
        var path = new StringBuilder();
        for (var date = scale.From; date <= scale.To; date = date.PlusDays(1))
        {
            if (date.DayOfWeek is IsoDayOfWeek.Saturday or IsoDayOfWeek.Sunday)
                path.Append(CultureInfo.InvariantCulture, $"M{scale.X(date):0.##} {scale.Bottom + 3:0.##}h{scale.DayWide:0.##}v5h{-scale.DayWide:0.##}z");
        }
        return Svg.Path(path.ToString(), SeasonInk.Weekend);
    }

    private IEnumerable<XElement> WeekdayLetters()
    {
        if (scale.DayWide < LetterWide) yield break;
        for (var date = scale.From; date <= scale.To; date = date.PlusDays(1))
        {
            var x = scale.X(date) + (scale.DayWide / 2);
            yield return Svg.Text(x, scale.Bottom + 18, $"{date.DayOfWeek}"[..1], SeasonInk.Small, "middle");
            yield return Svg.Text(x, scale.Bottom + 29, $"{date.Day}", SeasonInk.Small, "middle");
        }
    }

    private IEnumerable<XElement> Ranks()
    {
        var taken = new List<double>();
        foreach (var day in days.Where(day => ranks[day] <= RanksShown && day.Best is not null).OrderBy(day => ranks[day]))
        {
            var x = scale.X(day.Date) + (scale.DayWide / 2);
            if (taken.Exists(other => Math.Abs(other - x) < RankApart)) continue;
            taken.Add(x);
            yield return Svg.Text(x, scale.Top - 18, $"{ranks[day]}", SeasonInk.Rank, "middle");
            yield return Svg.Line(x, scale.Top - 15, x, scale.Y(scale.HoursOf(day.Best!.Time.Start, day.Date)) - 3, SeasonInk.RankLine);
        }
    }
}
