using FsCheck.Xunit;
using Glowcast.Benchmarks;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>The sweep against the exact ray, which looks from each post along that post's own true azimuth.</summary>
public class HorizonSweepTests
{
    private const double FarM = 2000;
    private const double RmsBeyondFarDeg = 0.01;
    private const double Percentile95Deg = 0.05;

    private static readonly double[] Azimuths = [0, 17, 45, 60, 90, 101.3, 151, 180, 200, 225, 250, 270, 288, 330];

    [FactNeeds<SharedTiles>]
    public void On_real_mountains_it_keeps_within_the_error_of_a_table() => KeepsWithin(SharedData.Tile, SightModel.Usual);

    [Fact]
    public void On_the_invented_range_it_keeps_within_the_error_of_a_table() => KeepsWithin(DemoTile(), SightModel.Usual);

    [Fact]
    public void On_rough_ground_it_keeps_within_the_error_of_a_table() =>
        KeepsWithin(RoughGround.Of(seed: 5, size: 1201), SightModel.Usual with { BeyondGrid = null });

    [Property(MaxTest = 25)]
    public void On_random_ground_with_holes_it_finds_true_ground_and_hardly_misses_any(int seed, ushort direction)
    {
        var grid = RoughGround.Of(seed, size: 121, holes: 5);
        var azimuth = Azimuth.FromDegrees(direction * 360 / 65536.0);
        var errors = Errors(grid, SightModel.Usual with { BeyondGrid = null }, azimuth, new Random(seed), 400).ToList();

        Assert.NotEmpty(errors);
        // A way shared by a block, and a parabola for a hyperbola inside a cell: no more than this above the truth. At the very
        // edge of a hole a hand's breadth decides whether there is ground at all; that may befall one place in a hundred.
        var above = errors.Where(error => error.Deg >= 0.3).ToList();
        Assert.True(above.Count <= errors.Count / 100, $"{above.Count} of {errors.Count} stand above the true horizon at {azimuth}, seed {seed}; the first: {above.FirstOrDefault()}");
        Assert.True(Percentile95(errors) <= Percentile95Deg, $"95th percentile is {Percentile95(errors)}° at {azimuth}, seed {seed}");
    }

    [Fact]
    public void A_hole_has_no_horizon_and_neither_has_a_post_at_the_edge_it_looks_over()
    {
        var grid = Grids.Square(46, 7, (row, column) => row == 50 && column == 50 ? double.NaN : 100, size: 101);
        var horizons = new float[grid.Heights.Length];
        new HorizonSweep(grid, SightModel.Usual with { BeyondGrid = null }).Run(Azimuth.FromDegrees(90), horizons);

        // Of the last two columns the grid ends within the length of a cell; a geodesic due east leaves the southern row at once.
        Assert.Equal(1 + (2 * 101) + 99, horizons.Count(float.IsNaN));
        Assert.True(float.IsNaN(horizons[(50 * 101) + 50]));
    }

    private static void KeepsWithin(ElevationGrid grid, SightModel model)
    {
        var random = new Random(1);
        var errors = Azimuths.SelectMany(degrees => Errors(grid, model, Azimuth.FromDegrees(degrees), random, 600)).ToList();
        var far = errors.Where(error => error.DistanceM >= FarM).ToList();
        var rms = Math.Sqrt(far.Average(error => error.Deg * error.Deg));
        var worst = errors.MaxBy(error => Math.Abs(error.Deg));
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"sweep: {errors.Count} horizons, rms beyond 2 km {rms:0.00000}°, p95 {Percentile95(errors):0.00000}°, worst {worst}");
        Assert.True(far.Count > 2000);
        Assert.True(rms <= RmsBeyondFarDeg, $"rms beyond 2 km is {rms}°");
        Assert.True(Percentile95(errors) <= Percentile95Deg, $"95th percentile is {Percentile95(errors)}°");
    }

    private static IEnumerable<(double Deg, double DistanceM)> Errors(
        ElevationGrid grid, SightModel model, Azimuth azimuth, Random random, int count)
    {
        var horizons = new float[grid.Heights.Length];
        new HorizonSweep(grid, model).Run(azimuth, horizons);
        var sights = new SightLines(grid, model);
        for (var i = 0; i < count; i++)
        {
            // Not on the outermost posts, where rounding decides whether a ray sets out inside the grid.
            var (row, column) = (random.Next(1, grid.Posts.Rows - 1), random.Next(1, grid.Posts.Columns - 1));
            var post = (row * grid.Posts.Columns) + column;
            var height = grid.Heights[post];
            if (float.IsNaN(height)) continue;
            var exact = sights.HorizonOf(new Place(grid.Posts.ToPoint(column, row), Length.FromMetres(height)), azimuth);
            if (exact.Altitude is not { } altitude) continue;
            Assert.False(float.IsNaN(horizons[post]), $"row {row} column {column} at {azimuth}: nothing found, {altitude} is true");
            yield return (double.RadiansToDegrees(horizons[post]) - altitude.Degrees, exact.Distance!.Value.Metres);
        }
    }

    private static double Percentile95(List<(double Deg, double DistanceM)> errors) =>
        errors.Select(error => Math.Abs(error.Deg)).Order().ElementAt((int)(0.95 * errors.Count));

    internal static ElevationGrid DemoTile()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Glowcast.sln"))) folder = folder.Parent!;
        using var stream = File.OpenRead(Path.Combine(folder.FullName, "terrain-samples", "N46W032.hgt"));
        return GridFile.Read(stream, "N46W032.hgt");
    }
}
