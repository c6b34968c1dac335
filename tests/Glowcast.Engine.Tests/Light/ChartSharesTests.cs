using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

public class ChartSharesTests
{
    private static readonly LightThresholds Thresholds = LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(8) };

    [Fact]
    public void Every_minute_and_column_has_the_share_that_its_stretches_give()
    {
        var scene = Scene.Of(Valley.Grid, SightModel.Usual, Valley.Lookout, BearingSpan.FromDegrees(267, 273), Thresholds);
        var chart = LightChart.Over(scene, LocalDay.Of(new LocalDate(2026, 10, 20), Valley.Lookout.Point, null), cancel: TestContext.Current.CancellationToken)!;

        var crest = ChartShares.Lit(chart, role => role == PatchRole.Crest);
        var valley = ChartShares.Lit(chart, role => role == PatchRole.Valley);

        Assert.Equal(chart.Minutes * scene.Columns, crest.Length);
        for (var minute = 0; minute < chart.Minutes; minute++)
        {
            for (var column = 0; column < scene.Columns; column++)
            {
                var at = (minute * scene.Columns) + column;
                Assert.Equal(255 * chart.CrestLit[column]!.At(minute * 60), crest[at], 0.51);
                Assert.Equal(255 * chart.ValleyOfColumn[column]!.At(minute * 60), valley[at], 0.51);
            }
        }
        Assert.Contains((byte)255, crest);
        Assert.Contains((byte)0, crest);
    }
}
