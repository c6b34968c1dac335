using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Light;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>One morning over the hand-made valley, worked out once, for laying any set over it.</summary>
internal static class ValleyLight
{
    public static readonly Plan Plan = new()
    {
        Lookout = new Lookout(Valley.Lookout.Point, Length.FromMetres(1.7), null),
        Date = new LocalDate(2026, 10, 20),
        Span = Valley.West,
        Gear = new Gear(
            new Camera(Length.FromMillimetres(36), Length.FromMillimetres(24), 8256, 5504), new Lens(Length.FromMillimetres(135), 11)),
        Set = new SetSettings { Rows = 2, Repeats = 0 },
        Thresholds = Geometry.Alone with { RidgeFrom = Length.FromKilometres(8) },
    };

    private static readonly Lazy<LightOfDay> Once = new(() =>
    {
        var scene = Scene.Of(Valley.Grid, SightModel.Usual, Valley.Lookout, Valley.West, Plan.Thresholds, framing: Framing.Of(Plan));
        var chart = LightChart.Over(scene, LocalDay.Of(Plan.Date!.Value, Plan.Lookout!.Point, null))!;
        return new LightOfDay(chart, WindowSearch.Windows(chart), RidgeBrightness.Of(scene, chart.Track, Plan.Conditions.Haze)!, SetWishes.Of(Plan, Plan.Date.Value));
    });

    public static LightOfDay Day => Once.Value;

    public static Scene Scene => Day.Chart.Scene;

    public static Angle Crest => Scene.HighestCrest!.Value;

    public static PlannedSet Set(SetSettings settings, Plan? plan = null) => PlannedSet.Of(plan ?? Plan, settings, Crest, []);

    public static SetFit Fit(SetSettings settings, double toleranceStops = 1.0 / 3) =>
        FitSearch.Fit(Day with { Wishes = Day.Wishes with { ToleranceStops = toleranceStops } }, new SetSequence(Set(settings)));

    /// <summary>Whether a frame's ridge is lit and the valley in shade, asked of the chart's columns at one moment.</summary>
    public static bool HasLight(Frame frame, Angle fieldAcross, Instant at)
    {
        var (chart, seconds) = (Day.Chart, Day.Chart.Track.SecondsAt(at));
        var shown = Enumerable.Range(0, Scene.Columns)
            .Where(column => frame.Bearing.TurnTo(Scene.View.Columns[column].Bearing).Abs() <= fieldAcross / 2 && chart.CrestLit[column] is not null).ToList();
        var lit = shown.Count(column => chart.ColumnLit[column].Exists(stretch => stretch.StartS <= seconds && seconds < stretch.EndS));
        return (shown.Count == 0 || lit >= Plan.Thresholds.ColumnsLit * shown.Count) && chart.Valley!.At(seconds) <= Plan.Thresholds.MostValley(Scene.ValleyPart) + 1e-7;
    }
}
