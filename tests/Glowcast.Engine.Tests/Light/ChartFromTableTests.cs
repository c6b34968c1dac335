using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>The chart, which has its horizons from a table, against one of exact rays alone.</summary>
public class ChartFromTableTests
{
    // Seconds of the day in which a patch is lit in one chart and not in the other.
    private const double MeanS = 0.5;
    private const double MedianS = 0.2;

    [Theory]
    [InlineData(2, 14)]
    [InlineData(6, 21)]
    [InlineData(12, 21)]
    public void On_rough_ground_patches_are_lit_when_exact_rays_say_so(int month, int day)
    {
        var grid = RoughGround.Of(seed: 11, size: 601);
        var point = grid.Posts.ToPoint(300, 300);
        var eye = new Place(point, grid.HeightAt(point)!.Value + Length.FromMetres(150));
        HoldsAgainstExactRays(grid, eye, BearingSpan.FromDegrees(230, 270), LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(2) }, new LocalDate(2026, month, day));
    }

    [Fact(SkipUnless = nameof(SharedData.HasTiles), SkipType = typeof(SharedData), Skip = SharedData.NoTiles)]
    public void On_real_mountains_patches_are_lit_when_exact_rays_say_so()
    {
        var point = GeoPoint.FromDegrees(44.2592, -71.2025);
        var eye = new Place(point, SharedData.Tile.HeightAt(point)!.Value + Length.FromMetres(1.7));
        HoldsAgainstExactRays(SharedData.Tile, eye, BearingSpan.FromDegrees(270, 300), LightThresholds.Usual, new LocalDate(2026, 2, 14));
    }

    [Fact]
    public void A_second_day_comes_from_the_table_of_the_first()
    {
        var shelf = new HorizonShelf();
        var (first, second) = (ValleyScene(shelf), ValleyScene(shelf));
        Assert.Same(first.Horizons(cancel: TestContext.Current.CancellationToken), second.Horizons(cancel: TestContext.Current.CancellationToken));
        Assert.NotSame(first.Horizons(cancel: TestContext.Current.CancellationToken), ValleyScene(new HorizonShelf()).Horizons(cancel: TestContext.Current.CancellationToken));
    }

    private static Scene ValleyScene(HorizonShelf shelf) =>
        Scene.Of(Valley.Grid, SightModel.Usual, Valley.Lookout, BearingSpan.FromDegrees(265, 275), LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(8) }, shelf: shelf);

    private static void HoldsAgainstExactRays(ElevationGrid grid, Place eye, BearingSpan span, LightThresholds thresholds, LocalDate date)
    {
        var scene = Scene.Of(grid, SightModel.Usual, eye, span, thresholds);
        var chart = LightChart.Over(scene, LocalDay.Of(date, eye.Point, null), cancel: TestContext.Current.CancellationToken)!;
        var exact = ExactChart.LitStretches(chart);
        var differing = exact.Select((lit, i) => DifferenceS(lit, chart.LitStretches(i))).Order().ToList();
        var (mean, median, p99) = (differing.Average(), differing[differing.Count / 2], differing[(int)(0.99 * differing.Count)]);
        TestContext.Current.TestOutputHelper?.WriteLine($"{differing.Count} patches: mean {mean:0.00} s, median {median:0.00} s, p99 {p99:0.0} s, worst {differing[^1]:0} s");
        Assert.True(differing.Count > 1000);
        Assert.True(mean <= MeanS, $"mean {mean} s");
        Assert.True(median <= MedianS, $"median {median} s");
    }

    private static double DifferenceS(IReadOnlyList<Stretch> a, IReadOnlyList<Stretch> b) =>
        a.Sum(stretch => stretch.LengthS) + b.Sum(stretch => stretch.LengthS) - (2 * Stretch.Common(a, b).Sum(stretch => stretch.LengthS));
}
