using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Field.Words;
using NodaTime;

namespace Glowcast.Field.Pictures;

/// <summary>The pictures of a forecast, as the page has them: the ridge with its frames, and under it the light chart with the set
/// over it, on the same bearings.</summary>
public sealed class Plate
{
    private const double Width = 1100;
    private const double TitlePx = 30;
    private const double AxisPx = 26;
    private const double RidgePx = 330;
    private const double ChartPx = 230;
    private const double LegendPx = 24;
    private const double LabelsPx = 48;
    private const double MarginPx = 20;
    private const string ChartTitle = "The light chart: bearing across, time down";
    private static readonly Duration Around = Duration.FromMinutes(15);

    private readonly LightForecast forecast;
    private readonly PlateScale scale;

    /// <exception cref="BadInputException">Nothing is seen: the lookout is under the cloud.</exception>
    public Plate(LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        if (forecast.Scene is null) throw new BadInputException("conditions.deckTopM", $"Leaves nothing to draw. {forecast.WhyNone}");
        (this.forecast, scale) = (forecast, new PlateScale(forecast.Plan.Span, LabelsPx, Width - MarginPx));
    }

    /// <summary>The moment of the ridge picture: the middle of the set, or of the window; the middle of the day where there is none.</summary>
    public Instant Moment => forecast switch
    {
        { Start: { } start, Set: { } set } => start + (set.Clock.Total / 2),
        { BestWindow: { } window } => window.Middle,
        _ => forecast.Day.Start + (forecast.Day.Duration / 2),
    };

    public string Svg() => Whole().ToSvg("plate");

    public byte[] Png() => Whole().ToPng();

    /// <summary>The light chart alone, its bearings over it; null where the sun does not rise far enough.</summary>
    public byte[]? ChartPng() => forecast.Chart is { } chart
        ? OnPaper(AxisPx + ChartPx + LegendPx, ChartTitle, [.. scale.Axis(0), .. ChartMarks(chart, AxisPx, ChartPx)]).ToPng()
        : null;

    /// <summary>The ridge alone, without paper.</summary>
    /// <param name="height">The greatest of its picture.</param>
    internal Drawing Ridge(double height)
    {
        var panel = new RidgePanel(forecast, forecast.Scene!, scale, 0, height);
        return new Drawing(Width, panel.Bottom + AxisPx, "The ridge with the frames of the set", [.. RidgeMarks(panel)]);
    }

    /// <summary>The light chart alone, without paper; null where the sun does not rise far enough.</summary>
    /// <param name="height">Of its plot.</param>
    internal Drawing? Chart(double height) => forecast.Chart is { } chart
        ? new Drawing(Width, height + LegendPx, ChartTitle, [.. ChartMarks(chart, 0, height)])
        : null;

    private Drawing Whole()
    {
        var panel = new RidgePanel(forecast, forecast.Scene!, scale, TitlePx, RidgePx);
        var chartTop = panel.Bottom + AxisPx;
        var (chart, bottom) = forecast.Chart is { } light ? (ChartMarks(light, chartTop, ChartPx), chartTop + ChartPx + LegendPx) : ([], chartTop);
        return OnPaper(bottom, "The ridge with the frames of the set, and the light chart", [Title(), .. RidgeMarks(panel), .. chart]);
    }

    private static Drawing OnPaper(double height, string title, IReadOnlyList<Mark> marks) =>
        new(Width, height, title, [new Outline(new Box(0, 0, Width, height).Corners, Inks.Paper, null), .. marks]);

    private Label Title()
    {
        var (plan, lookout) = (forecast.Plan, forecast.Plan.Lookout!);
        var clock = new Clock(plan.Date!.Value, lookout.Zone);
        return new Label($"{Say.Day(plan.Date.Value, lookout.Zone)}. From {lookout.Point}; the ridge as at {clock.Say(Moment)}", new Spot(LabelsPx, 20), 13, Anchor.Start, Inks.Ink);
    }

    private IEnumerable<Mark> RidgeMarks(RidgePanel panel) => panel.Marks(Moment).Concat(scale.Axis(panel.Bottom));

    private IEnumerable<Mark> ChartMarks(LightChart chart, double top, double height) =>
        [.. new ChartPanel(forecast, chart, scale, top, height, Around).Marks(), .. ChartLegend.Marks(scale.Left, top + height + 6)];
}
