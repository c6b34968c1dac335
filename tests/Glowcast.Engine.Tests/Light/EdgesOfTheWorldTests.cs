using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Windows and pictures across north, south of the equator and in the polar day.</summary>
public class EdgesOfTheWorldTests
{
    [Fact]
    public void The_median_of_bearings_about_north_is_north()
    {
        var horizons = Enumerable.Range(-2, 6).Where(degrees => degrees != 0).Select(degrees => (HorizonKind.Terrain, Azimuth.FromDegrees(degrees), (Length?)Length.FromMetres(1000 + degrees)));
        var median = EdgeHorizon.Median([.. horizons, (HorizonKind.Deck, Azimuth.FromDegrees(90), null)]);
        Assert.Equal(HorizonKind.Terrain, median.Kind);
        Assert.Equal(1, median.SunAzimuth.Degrees, 9);
        Assert.Equal(1001, median.Distance!.Value.Metres, 9);
    }

    [Fact]
    public void In_a_polar_day_only_the_ends_of_the_day_have_no_horizon_of_their_own()
    {
        // A steep island ridge in the north over a level sea; at 78° the midsummer sun stays 11° up and more.
        var grid = Grids.Square(78, 15, (row, _) => row is > 500 and < 520 ? 800 : 0);
        var lookout = Place.FromDegrees(78.5, 15.5, 2);
        var scene = Scene.Of(
            grid, SightModel.Usual, lookout, BearingSpan.FromDegrees(350, 10), LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(3), ValleyLit = 1, CrestLit = 0.01, ColumnsLit = 0.01 });
        var chart = LightChart.Over(scene, LocalDay.Of(new LocalDate(2026, 6, 21), lookout.Point, null), cancel: TestContext.Current.CancellationToken)!;

        var windows = WindowSearch.Windows(chart);

        Assert.NotEmpty(windows);
        foreach (var edge in windows.SelectMany(window => (WindowEdge[])[window.Start, window.End]))
            Assert.Equal(edge.Cause == WindowEdgeCause.DayEnds, edge.Horizon is null);
        var noon = chart.Track.At(chart.Track.LengthS / 2);
        var picture = Picture(chart, noon);
        // At noon the sun stands behind the lookout, which looks north.
        Assert.All(picture.Bearings, bearing => Assert.InRange(bearing.SunFromView.Degrees, 160, 180));
        Assert.All(picture.Bearings, bearing => Assert.Equal(LightDirection.Front, bearing.Direction));
        Assert.NotNull(picture.BlackPoint);
        var midnight = Picture(chart, chart.Track.At(60));
        Assert.All(midnight.Bearings, bearing => Assert.Equal(LightDirection.Back, bearing.Direction));
    }

    [Fact]
    public void South_of_the_equator_a_wall_in_the_north_is_backlit_at_noon()
    {
        var grid = Grids.Square(-34, 150, (row, _) => Math.Clamp(1500 - (40 * (row - 500)), 300, 1500));
        var lookout = Place.FromDegrees(-33.55, 150.5, 302);
        var scene = Scene.Of(grid, SightModel.Usual, lookout, BearingSpan.FromDegrees(340, 20), LightThresholds.Usual);
        var chart = LightChart.Over(scene, LocalDay.Of(new LocalDate(2026, 6, 21), lookout.Point, null), cancel: TestContext.Current.CancellationToken)!;

        var picture = Picture(chart, chart.Track.At(chart.Track.LengthS / 2));

        Assert.All(picture.Bearings, bearing => Assert.Equal(LightDirection.Back, bearing.Direction));
        // The face falls 40 m in 92 m to the south, 23°; the noon sun stands 33° high in the north and grazes it.
        Assert.Equal(0, picture.Relief!.Value.Shadow, 0.2);
        Assert.Equal(Math.Sin(double.DegreesToRadians(33.0 - 23.4)), picture.Relief.Value.Incidence!.Value, 0.03);
    }

    private static PictureLight Picture(LightChart chart, Instant instant) => PictureLight.At(
        chart, instant, RidgeBrightness.Of(chart.Scene, chart.Track, new Haze(0.05))!.At(instant), Length.FromKilometres(80), Reflectances.Usual);
}
