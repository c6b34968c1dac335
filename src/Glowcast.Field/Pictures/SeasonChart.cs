using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Field.Pictures;

/// <summary>The picture of a season: days across and the hours of their clocks down, a panel for each plan and year.</summary>
/// <remarks>Windows of light are outlined; the best days carry their rank.</remarks>
public sealed class SeasonChart
{
    private const int DaysAcross = 366;
    private const double Left = 44;
    private const double Margin = 18;
    private const double TitleHigh = 40;
    private const double TitlePx = 19;
    private const double LegendHigh = 40;
    private const double LeastWide = 760;
    private const string Title = "Days with light on the ridge";

    private readonly Drawing drawing;

    private SeasonChart(Drawing drawing) => this.drawing = drawing;

    /// <exception cref="ArgumentException">There is nothing to draw: no season.</exception>
    public static SeasonChart Of(IReadOnlyList<SiteSeason> seasons)
    {
        ArgumentNullException.ThrowIfNull(seasons);
        if (seasons.Count == 0) throw new ArgumentException("A picture needs a season.", nameof(seasons));
        var ranks = SeasonForecast.Ranked(seasons).ToDictionary(entry => entry.Day, entry => entry.Rank, (IEqualityComparer<SeasonDay>)ReferenceEqualityComparer.Instance);
        var top = TitleHigh;
        var (panels, right) = (new List<Mark>(), Left + LeastWide);
        foreach (var season in seasons)
        {
            foreach (var days in Years(season.Days))
            {
                var lookout = season.Site.Plan.Lookout!;
                var scale = new SeasonScale(days[0].Date, days[^1].Date, lookout.Point, lookout.Zone, Left, top + SeasonPanel.Above);
                panels.AddRange(new SeasonPanel(season, days, ranks, scale).Marks());
                (top, right) = (scale.Bottom + SeasonPanel.Below, Math.Max(right, scale.Right));
            }
        }
        return new SeasonChart(Page(right + Margin, top + LegendHigh, panels, top + Margin));
    }

    public string Svg() => drawing.ToSvg("season");

    public byte[] Png() => drawing.ToPng();

    /// <summary>The days cut into pieces of a year, for one panel each; days that no filter let through leave a gap.</summary>
    private static IEnumerable<IReadOnlyList<SeasonDay>> Years(IReadOnlyList<SeasonDay> days) =>
        days.GroupBy(day => Period.DaysBetween(days[0].Date, day.Date) / DaysAcross).Select(year => (IReadOnlyList<SeasonDay>)[.. year]);

    private static Drawing Page(double width, double height, IEnumerable<Mark> panels, double legendTop) => new(width, height, Title,
    [
        new Outline(new Box(0, 0, width, height).Corners, SeasonInk.Paper, null),
        new Label(Title, new Spot(Left, 28), TitlePx, Anchor.Start, SeasonInk.Ink),
        .. panels,
        .. Legend(legendTop),
    ]);

    private static IEnumerable<Mark> Legend(double top)
    {
        (Texture Texture, string Text)[] entries =
        [
            (SeasonInk.Night, "night"), (SeasonInk.Twilight, "sun up to 6° down"), (SeasonInk.SunUp, "sun up, level horizon"),
            (SeasonInk.RidgeLit, "direct light on the ridge"), (SeasonInk.Window, "window: ridge lit, valley in shade"), (SeasonInk.Weekend, "Saturday, Sunday"),
        ];
        var x = Left;
        foreach (var (texture, text) in entries)
        {
            var box = new Box(x, top - 9, 16, 11);
            yield return new Fill(texture, [box]);
            yield return new Outline(box.Corners, null, SeasonInk.LegendEdge);
            yield return new Label(text, new Spot(x + 21, top), SeasonInk.Small, Anchor.Start, SeasonInk.Ink);
            x += 37 + (5.6 * text.Length);
        }
    }
}
