using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>The chart, which has its horizons from a table, against one of exact rays alone.</summary>
public class ChartFromTableTests
{
    // Seconds of the day in which a patch is lit in one chart and not in the other.
    private const double MeanS = 0.12;
    private const double MedianS = 0.05;
    private const double Percentile99S = 2;

    // Of the disc, in the mean over a column and over all minutes; and in a single minute of a column that has few patches.
    private const double MeanShare = 0.001;
    private const double WorstShare = 0.2;
    private const int EveryMinutes = 5;

    private static readonly LocalDate February = new(2026, 2, 14);
    private static readonly BearingSpan SouthWest = BearingSpan.FromDegrees(230, 242);

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

    [FactNeeds<SharedTiles>]
    public void On_real_mountains_patches_are_lit_when_exact_rays_say_so()
    {
        var point = GeoPoint.FromDegrees(44.2592, -71.2025);
        var eye = new Place(point, SharedData.Tile.HeightAt(point)!.Value + Length.FromMetres(1.7));
        HoldsAgainstExactRays(SharedData.Tile, eye, BearingSpan.FromDegrees(270, 300), LightThresholds.Usual, new LocalDate(2026, 2, 14));
    }

    [Theory]
    [InlineData(-43.4, 170.1, 6, 21)]
    [InlineData(0.1, -78.5, 3, 20)]
    // The sun within a degree of the zenith at noon.
    [InlineData(21, 105, 5, 27)]
    // Across the date line.
    [InlineData(-16.2, 179.9, 6, 21)]
    // Up all day, and low at midnight; low all day.
    [InlineData(68.5, 28, 6, 21)]
    [InlineData(79.9, 15, 3, 20)]
    public void Wherever_on_earth(double northDeg, double westDeg, int month, int day)
    {
        var posts = new GridPosts(301, 301, northDeg, westDeg, 1 / 1200.0, northDeg > 60 ? 1 / 300.0 : 1 / 1200.0);
        HoldsFromTheMiddle(new ElevationGrid(posts, [.. RoughGround.Of(seed: 3, size: 301).Heights], "made for a test"), date: new LocalDate(2026, month, day));
    }

    [Theory]
    [InlineData(32, 5_095_000, 420_000, 3, 1)]
    [InlineData(35, 7_890_000, 540_000, 5, 5)]
    public void On_the_plane_of_a_projection(int zone, double northM, double westM, int month, int day)
    {
        var posts = new GridPosts(301, 301, northM, westM, 90, 90, MapProjection.Utm(zone, isNorth: true, Spheroid.Wgs84), $"WGS 84 / UTM zone {zone}N");
        HoldsFromTheMiddle(new ElevationGrid(posts, [.. RoughGround.Of(seed: 3, size: 301).Heights], "made for a test"), date: new LocalDate(2026, month, day));
    }

    [Theory]
    [InlineData(30)]
    // Ragged.
    [InlineData(8000)]
    public void Over_holes(int holes) => HoldsFromTheMiddle(RoughGround.Of(seed: 3, size: 301, holes));

    [Fact]
    public void Over_a_sea_of_cloud() => HoldsFromTheMiddle(RoughGround.Of(seed: 3, size: 301), deckTop: Length.FromMetres(400));

    [Fact]
    public void With_nothing_past_the_edge_of_the_grid() => HoldsFromTheMiddle(RoughGround.Of(seed: 3, size: 301), model: SightModel.Usual with { BeyondGrid = null });

    [Fact]
    public void Through_north_in_summer() =>
        HoldsFromTheMiddle(RoughGround.Of(seed: 3, size: 301), BearingSpan.FromDegrees(354, 6), date: new LocalDate(2026, 6, 21));

    [Fact]
    public void On_the_smallest_ground() => HoldsFromTheMiddle(RoughGround.Of(seed: 3, size: 21), BearingSpan.FromDegrees(215, 235), ridgeFromKm: 0.5);

    [Theory]
    [InlineData(0)]
    [InlineData(0.5)]
    [InlineData(1)]
    public void Whatever_share_of_the_disc_counts(double share) => HoldsFromTheMiddle(RoughGround.Of(seed: 3, size: 301), discShare: share);

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

    private static void HoldsFromTheMiddle(
        ElevationGrid grid, BearingSpan? span = null, LocalDate? date = null, SightModel? model = null, Length? deckTop = null, double ridgeFromKm = 2, double discShare = 0.9)
    {
        var middle = (grid.Posts.Rows - 1) / 2;
        var point = Enumerable.Range(middle, middle).Select(column => grid.Posts.ToPoint(column, middle)).First(point => grid.HeightAt(point) is not null);
        var thresholds = LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(ridgeFromKm), DiscShare = discShare };
        HoldsAgainstExactRays(grid, new Place(point, grid.HeightAt(point)!.Value + Length.FromMetres(150)), span ?? SouthWest, thresholds, date ?? February, model, deckTop);
    }

    private static void HoldsAgainstExactRays(
        ElevationGrid grid, Place eye, BearingSpan span, LightThresholds thresholds, LocalDate date, SightModel? model = null, Length? deckTop = null)
    {
        var scene = Scene.Of(grid, model ?? SightModel.Usual, eye, span, thresholds, deckTop);
        var chart = LightChart.Over(scene, LocalDay.Of(date, eye.Point, null), cancel: TestContext.Current.CancellationToken)!;
        var exact = ExactChart.LitStretches(chart);
        var differing = exact.Select((lit, i) => DifferenceS(lit, chart.LitStretches(i))).Order().ToList();
        var (mean, median, p99) = (differing.Average(), differing[differing.Count / 2], differing[(int)(0.99 * differing.Count)]);
        TestContext.Current.TestOutputHelper?.WriteLine($"{differing.Count} patches: mean {mean:0.00} s, median {median:0.00} s, p99 {p99:0.0} s, worst {differing[^1]:0.0} s");
        Assert.True(differing.Count > 1000);
        Assert.True(mean <= MeanS, $"mean {mean} s");
        Assert.True(median <= MedianS, $"median {median} s");
        Assert.True(p99 <= Percentile99S, $"p99 {p99} s");
        foreach (var role in scene.Patches.Select(patch => patch.Role).Distinct()) SharesHold(chart, role);
    }

    private static void SharesHold(LightChart chart, PatchRole role)
    {
        var (scene, times) = (chart.Scene, Enumerable.Range(0, ((chart.Minutes - 1) / EveryMinutes) + 1).Select(i => i * EveryMinutes).ToList());
        var (sums, weights) = (new double[chart.Minutes * scene.Columns], new double[scene.Columns]);
        var ground = new SunOverGround(chart.Track, scene.Grid, scene.Model);
        foreach (var patch in scene.Patches.Where(patch => patch.Role == role))
        {
            ground.StandAt(patch.Ground);
            weights[patch.Column] += patch.Weight;
            foreach (var minute in times)
                sums[(minute * scene.Columns) + patch.Column] += patch.Weight * Disc.ShareOfArea(ground.At(60 * minute).InSemidiameters);
        }
        var shares = chart.MeanDiscShares(other => other == role);
        var errors = (
            from minute in times
            from column in Enumerable.Range(0, scene.Columns)
            where weights[column] > 0
            let at = (minute * scene.Columns) + column
            select Math.Abs((shares[at] / 255.0) - (sums[at] / weights[column]))).ToList();
        TestContext.Current.TestOutputHelper?.WriteLine($"{role}, shares of the disc: mean {errors.Average():0.00000}, worst {errors.Max():0.000}");
        Assert.InRange(errors.Average(), 0, MeanShare);
        Assert.InRange(errors.Max(), 0, WorstShare);
    }

    private static double DifferenceS(IReadOnlyList<Stretch> a, IReadOnlyList<Stretch> b) =>
        a.Sum(stretch => stretch.LengthS) + b.Sum(stretch => stretch.LengthS) - (2 * Stretch.Common(a, b).Sum(stretch => stretch.LengthS));
}
