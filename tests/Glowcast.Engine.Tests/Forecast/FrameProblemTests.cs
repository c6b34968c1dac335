using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Light;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>What a frame lacks before and after its light: in the morning the sun reaches the ridge first and then the valley, in the
/// evening it leaves the valley first.</summary>
public class FrameProblemTests
{
    private const double TenMinutesS = 600;

    [Fact]
    public void In_the_morning_the_ridge_is_dark_before_and_the_valley_lit_after()
    {
        var (light, window) = Light(ValleyLight.Day.Chart, ValleyLight.Plan);
        Assert.Equal(FrameProblem.RidgeNotYetLit, light.ProblemOf(0, new Stretch(window.StartS - TenMinutesS, window.StartS - TenMinutesS + 0.02)));
        Assert.Equal(FrameProblem.ValleyLit, light.ProblemOf(0, new Stretch(window.EndS + TenMinutesS, window.EndS + TenMinutesS + 0.02)));
    }

    [Fact]
    public void In_the_evening_the_valley_is_lit_before_and_the_ridge_dark_after()
    {
        var lookout = Place.FromDegrees(46.5, 7 + ((Valley.WestRidgeColumn + 1) / 1200.0), Valley.WestCrestM - 100 + 1.7);
        var plan = ValleyLight.Plan with { Lookout = new Lookout(lookout.Point, Length.FromMetres(1.7), null), Span = BearingSpan.FromDegrees(75, 105) };
        var scene = Scene.Of(Valley.Grid, SightModel.Usual, lookout, plan.Span, plan.Thresholds);
        var chart = LightChart.Over(scene, LocalDay.Of(plan.Date!.Value, lookout.Point, null), cancel: TestContext.Current.CancellationToken)!;
        var (light, window) = Light(chart, plan);
        Assert.Equal(FrameProblem.ValleyNotYetShaded, light.ProblemOf(0, new Stretch(window.StartS - TenMinutesS, window.StartS - TenMinutesS + 0.02)));
        Assert.Equal(FrameProblem.RidgeNoLongerLit, light.ProblemOf(0, new Stretch(window.EndS + TenMinutesS, window.EndS + TenMinutesS + 0.02)));
    }

    /// <summary>The light of a plan's frames about the last window of the day.</summary>
    private static (FrameLight Light, Stretch Window) Light(LightChart chart, Plan plan)
    {
        var window = WindowSearch.Windows(chart)[^1];
        var stretch = new Stretch(chart.Track.SecondsAt(window.Start.At), chart.Track.SecondsAt(window.End.At));
        return (new FrameLight(chart, stretch, PlannedSet.Of(plan, plan.Set, chart.Scene.HighestCrest, []).Layout), stretch);
    }
}
