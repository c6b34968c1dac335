using Glowcast.Engine.Forecast;
using Glowcast.Engine.Tests.Light;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>Being late, on one morning over the hand-made valley: held against the chart's columns, one by one.</summary>
public class ShiftedStartTests
{
    private static readonly LightForecast Whole = Forecaster.Forecast(
        ValleyLight.Plan with { Set = ValleyLight.Plan.Set with { Repeats = 1 } }, Valley.Grid, cancel: TestContext.Current.CancellationToken);

    [Theory]
    [InlineData(-1)]
    [InlineData(0)]
    [InlineData(5)]
    [InlineData(60)]
    [InlineData(100_000)]
    public void Every_exposure_is_counted_by_the_light_of_its_own_bearings_at_its_own_instant(double afterLatestS)
    {
        var start = Whole.Fit!.LatestStart!.Value + Duration.FromSeconds(afterLatestS);
        var (layout, shifted) = (Whole.Set!.Layout, ShiftedStart.Of(Whole, start)!);
        var lit = Whole.Set.Clock.Exposures.Select(exposure =>
            ValleyLight.HasLight(layout.FrameAt(exposure.Row, exposure.Column), layout.Field.Horizontal, start + exposure.Start)
            && ValleyLight.HasLight(layout.FrameAt(exposure.Row, exposure.Column), layout.Field.Horizontal, start + exposure.End)).ToList();

        Assert.Equal(Whole.Set.Clock.Exposures.Count, shifted.Exposures);
        Assert.Equal(lit.Count(isLit => isLit), shifted.InLight);
        Assert.Equal(lit.IndexOf(false), shifted.FirstProblem is { } problem ? Whole.Set.Clock.Exposures.ToList().IndexOf(problem.Exposure) : -1);
    }

    [Fact]
    public void Past_the_latest_start_the_repeat_is_lost_first_then_the_rows_of_the_set()
    {
        var (latest, clock) = (Whole.Fit!.LatestStart!.Value, Whole.Set!.Clock);
        Assert.Equal(2, ShiftedStart.Of(Whole, latest - Duration.FromSeconds(1))!.WholeSets);
        var late = ShiftedStart.Of(Whole, latest + Duration.FromSeconds(5))!;
        Assert.Equal((1, 2), (late.WholeSets, late.WholeRows));
        var later = ShiftedStart.Of(Whole, latest + clock.SetStart(1) + Duration.FromSeconds(5))!;
        Assert.Equal((0, 1), (later.WholeSets, later.WholeRows));
        Assert.Equal(FrameProblem.ValleyLit, later.FirstProblem!.Problem);
    }
}
