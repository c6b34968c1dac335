using System.Text;
using System.Xml;
using System.Xml.Linq;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Field.Pictures;

/// <summary>The picture of a season: days across and the hours of their clocks down, a panel for each plan and year.</summary>
public sealed class SeasonChart
{
    private const int DaysAcross = 366;
    private const double Left = 44;
    private const double Margin = 18;
    private const double TitleHigh = 40;
    private const double LegendHigh = 40;
    private const double LeastWide = 760;

    private readonly XDocument document;

    private SeasonChart(XDocument document) => this.document = document;

    /// <exception cref="ArgumentException">There is nothing to draw: no season.</exception>
    public static SeasonChart Of(IReadOnlyList<SiteSeason> seasons)
    {
        ArgumentNullException.ThrowIfNull(seasons);
        if (seasons.Count == 0) throw new ArgumentException("A picture needs a season.", nameof(seasons));
        var ranks = SeasonForecast.Ranked(seasons).ToDictionary(entry => entry.Day, entry => entry.Rank, (IEqualityComparer<SeasonDay>)ReferenceEqualityComparer.Instance);
        var top = TitleHigh;
        var (panels, right) = (new List<XElement>(), Left + LeastWide);
        foreach (var season in seasons)
        {
            foreach (var days in Years(season.Days))
            {
                var lookout = season.Site.Plan.Lookout!;
                var scale = new SeasonScale(days[0].Date, days[^1].Date, lookout.Point, lookout.Zone, Left, top + SeasonPanel.Above);
                panels.Add(Svg.Group(new SeasonPanel(season, days, ranks, scale).Draw()));
                (top, right) = (scale.Bottom + SeasonPanel.Below, Math.Max(right, scale.Right));
            }
        }
        return new SeasonChart(Page(right + Margin, top + LegendHigh, panels, top + Margin));
    }

    /// <summary>Writes it as SVG.</summary>
    public void Save(TextWriter writer)
    {
        using var xml = XmlWriter.Create(writer, new XmlWriterSettings { Indent = true, Encoding = new UTF8Encoding(false) });
        document.Save(xml);
    }

    /// <summary>The days cut into pieces of a year, for one panel each; days that no filter let through leave a gap.</summary>
    private static IEnumerable<IReadOnlyList<SeasonDay>> Years(IReadOnlyList<SeasonDay> days) =>
        days.GroupBy(day => Period.DaysBetween(days[0].Date, day.Date) / DaysAcross).Select(year => (IReadOnlyList<SeasonDay>)[.. year]);

    private static XDocument Page(double width, double height, IEnumerable<XElement> panels, double legendTop) => new(new XElement(
        Svg.Name + "svg",
        Svg.At("width", width), Svg.At("height", height), new XAttribute("viewBox", FormattableString.Invariant($"0 0 {width:0.##} {height:0.##}")),
        new XAttribute("role", "img"), new XAttribute("font-family", "Georgia, 'DejaVu Serif', serif"), new XAttribute("fill", "#141b26"),
        new XElement(Svg.Name + "title", "Days with light on the ridge"),
        new XElement(Svg.Name + "desc", "Days run from left to right and the hours of the local clock from top to bottom. Windows of light are outlined; the best days carry their rank."),
        new XElement(Svg.Name + "defs", Hatching()),
        Svg.Rect(0, 0, width, height, SeasonInk.Paper),
        Svg.Text(Left, 28, "Days with light on the ridge", "font-size:19px"),
        panels,
        Legend(legendTop)));

    private static XElement Hatching() => new(
        Svg.Name + "pattern", new XAttribute("id", "hatch"), Svg.At("width", 5), Svg.At("height", 5), new XAttribute("patternUnits", "userSpaceOnUse"),
        Svg.Rect(0, 0, 5, 5, SeasonInk.HatchGround), Svg.Line(0, 5, 5, 0, SeasonInk.Hatch));

    private static XElement Legend(double top)
    {
        (string Style, string Text)[] entries =
        [
            (SeasonInk.Night, "night"), (SeasonInk.Twilight, "sun up to 6° down"), (SeasonInk.SunUp, "sun up, level horizon"),
            (SeasonInk.RidgeLit, "direct light on the ridge"), (SeasonInk.Window, "window: ridge lit, valley in shade"), (SeasonInk.Weekend, "Saturday, Sunday"),
        ];
        var (inner, x) = (new List<XElement>(), Left);
        foreach (var (style, text) in entries)
        {
            inner.Add(Svg.Rect(x, top - 9, 16, 11, $"{style};stroke:#141b26;stroke-width:.8"));
            inner.Add(Svg.Text(x + 21, top, text, SeasonInk.Small));
            x += 37 + (5.6 * text.Length);
        }
        return Svg.Group(inner);
    }
}
