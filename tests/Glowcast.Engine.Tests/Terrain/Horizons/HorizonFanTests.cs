using FsCheck.Xunit;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>The fan of rays against the exact ray, which sets out from each place along a geodesic of its own.</summary>
public class HorizonFanTests
{
    private const double FarM = 2000;

    // A table of horizons may err by 0.01° beyond 2 km, and by 0.05° at the 95th percentile; this is a tenth of it and less.
    private const double RmsBeyondFarDeg = 0.001;
    private const double Percentile95Deg = 0.001;

    // Single precision.
    private const double MostAboveDeg = 0.005;

    private const double ExactDeg = 0.002;

    // So near the eye ground between the edges of cells may be passed by.
    private const double BetweenEdgesDeg = 0.5;

    private static readonly Azimuth[] AllRound = [.. Enumerable.Range(0, 120).Select(i => Azimuth.FromDegrees(3 * i))];

    [FactNeeds<SharedTiles>]
    public void On_real_mountains_it_keeps_within_a_tenth_of_the_error_of_a_table() => KeepsWithin(SharedData.Tile, SightModel.Usual, 300);

    [Fact]
    public void On_the_invented_range_it_keeps_within_a_tenth_of_the_error_of_a_table() => KeepsWithin(HorizonSweepTests.DemoTile(), SightModel.Usual, 300);

    [Fact]
    public void On_rough_ground_it_keeps_within_a_tenth_of_the_error_of_a_table() =>
        KeepsWithin(RoughGround.Of(seed: 5, size: 1201), SightModel.Usual with { BeyondGrid = null }, 300);

    [Fact]
    public void On_a_small_piece_of_real_ground_it_keeps_within_a_tenth_of_the_error_of_a_table() => KeepsWithin(RealGround.Grid, SightModel.Usual, 300);

    [Property(MaxTest = 25)]
    public void On_random_ground_with_holes_it_finds_true_ground_and_hardly_misses_any(int seed)
    {
        var errors = Errors(RoughGround.Of(seed, size: 121, holes: 5), SightModel.Usual with { BeyondGrid = null }, 20, seed);
        // At the very edge of a hole a hand's breadth decides whether there is ground at all; that may befall one place in a hundred.
        Assert.InRange(errors.Count(error => error.Deg >= 0.3), 0, errors.Count / 100);
        Assert.InRange(Percentile(errors, 0.95), 0, Percentile95Deg);
    }

    // Posts beside holes on either hand are no ground, though they have heights.
    [Fact]
    public void Over_ragged_holes_it_holds_as_well() => KeepsWithin(RoughGround.Of(seed: 2, size: 201, holes: 8000), SightModel.Usual, 40, leastFar: 100);

    [Fact]
    public void A_sea_of_cloud_is_ground() =>
        KeepsWithin(RoughGround.Of(seed: 8, size: 401).Under(Length.FromMetres(600)), SightModel.Usual.Under(Length.FromMetres(600)), 150);

    // Due east and west a ray runs along a row of posts, and a hair beside it crosses it at a sharp angle.
    [Fact]
    public void Along_the_rows_of_posts_nothing_stands_higher_than_on_the_exact_ray()
    {
        var grid = RoughGround.Of(seed: 7, size: 401);
        var (sights, azimuths) = (new SightLines(grid, SightModel.Usual), new[] { Azimuth.FromDegrees(90), Azimuth.FromDegrees(270) });
        var places = (
            from row in Enumerable.Range(0, 39)
            from column in Enumerable.Range(0, 39)
            let point = grid.Posts.ToPoint(5 + (10 * column), 5 + (10 * row) + ((column - 19) * 1e-5))
            select new Place(point, grid.HeightAt(point)!.Value + Length.FromMetres(2))).ToList();
        var horizonRad = new float[places.Count * azimuths.Length];
        new HorizonFan(grid, SightModel.Usual, azimuths).Run(places, horizonRad);
        for (var i = 0; i < horizonRad.Length; i++)
        {
            var exactDeg = sights.HorizonOf(places[i / azimuths.Length], azimuths[i % azimuths.Length]).Altitude!.Value.Degrees;
            Assert.InRange(double.RadiansToDegrees(horizonRad[i]) - exactDeg, -BetweenEdgesDeg, MostAboveDeg);
        }
    }

    // Rays that leave by a side, or never do, from places beside it; the outermost squares of ground reach beyond the grid.
    [Theory]
    [InlineData(402, false)]
    [InlineData(403, false)]
    [InlineData(404, false)]
    [InlineData(402, true)]
    [InlineData(403, true)]
    [InlineData(404, true)]
    public void Beside_the_edges_of_the_grid_it_holds_as_well(int size, bool isExact)
    {
        var rough = RoughGround.Of(seed: size, size);
        var grid = new ElevationGrid(new GridPosts(size, size, 69, 20, 1 / 1200.0, 1 / 1200.0), [.. rough.Heights], "made for a test");
        var sights = new SightLines(grid, SightModel.Usual);
        // About due north, east, south and west.
        Azimuth[] azimuths = [.. Enumerable.Range(0, 84).Select(i => Azimuth.FromDegrees((358 + (90 * (i / 21)) + (0.2 * (i % 21))) % 360))];
        var places = (
            from i in Enumerable.Range(1, 27)
            let along = i * size / 28.0
            let inside = 0.02 + (0.6 * (i % 3))
            from cell in new[] { (X: along, Y: inside), (X: along, Y: size - 1 - inside), (X: inside, Y: along), (X: size - 1 - inside, Y: along) }
            let point = grid.Posts.ToPoint(cell.X, cell.Y)
            select new Place(point, grid.HeightAt(point)!.Value + Length.FromMetres(2))).ToList();
        var horizonRad = new float[places.Count * azimuths.Length];
        new HorizonFan(grid, SightModel.Usual, azimuths, isExact).Run(places, horizonRad);
        for (var i = 0; i < horizonRad.Length; i++)
        {
            var exactDeg = sights.HorizonOf(places[i / azimuths.Length], azimuths[i % azimuths.Length]).Altitude!.Value.Degrees;
            // A ray at a sharp angle to the edge is followed until it is a ten-thousandth of a cell beyond.
            Assert.InRange(double.RadiansToDegrees(horizonRad[i]) - exactDeg, isExact ? -0.01 : -BetweenEdgesDeg, 0.02);
        }
    }

    [Theory]
    [InlineData(19, 4_930_000, 300_000)]
    [InlineData(19, 7_900_000, 700_000)]
    public void On_the_plane_of_a_projection_the_azimuth_stays_true(int zone, double northM, double westM)
    {
        var rough = RoughGround.Of(seed: 4, size: 501);
        var posts = new GridPosts(501, 501, northM, westM, 90, 90, MapProjection.Utm(zone, isNorth: true, Spheroid.Wgs84), $"WGS 84 / UTM zone {zone}N");
        KeepsWithin(new ElevationGrid(posts, [.. rough.Heights], "made for a test"), SightModel.Usual, 150);
    }

    // To the second there is no cubic for the way: each ray is gone for itself.
    [Theory]
    [InlineData(79)]
    [InlineData(88.5)]
    [InlineData(-35)]
    public void Far_from_the_middle_latitudes_it_holds_as_well(double northDeg)
    {
        var rough = RoughGround.Of(seed: 6, size: 301);
        // Across the date line.
        var posts = new GridPosts(301, 301, northDeg, 179.9, 1 / 1200.0, 1 / 1200.0);
        KeepsWithin(new ElevationGrid(posts, [.. rough.Heights], "made for a test"), SightModel.Usual, 60, leastFar: 100);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(5)]
    [InlineData(17)]
    public void The_smallest_grids_are_walked_from_every_corner(int size)
    {
        var grid = RoughGround.Of(seed: size, size);
        var places = (
            from row in Enumerable.Range(0, size)
            from column in Enumerable.Range(0, size)
            let point = grid.Posts.ToPoint(column, row)
            select new Place(point, grid.HeightAt(point)!.Value + Length.FromMetres(2))).ToList();
        var model = SightModel.Usual with { BeyondGrid = Length.FromMetres(-100) };
        // Not along the outermost posts, where rounding decides whether a ray stays inside the grid.
        var azimuths = Enumerable.Range(0, 72).Select(i => Azimuth.FromDegrees((5 * i) + 2.5)).ToList();
        var horizons = Run(grid, model, azimuths, places);
        var sights = new SightLines(grid, model);
        var errors = (
            from i in Enumerable.Range(0, places.Count)
            from j in Enumerable.Range(0, azimuths.Count)
            let exact = sights.HorizonOf(places[i], azimuths[j])
            select (double.RadiansToDegrees(horizons[(i * azimuths.Count) + j]) - exact.Altitude!.Value.Degrees, exact.Distance!.Value.Metres)).ToList();
        Assert.InRange(Percentile(errors, 0.99), 0, Percentile95Deg);
        Assert.All(errors, error => Assert.InRange(error.Item1, -BetweenEdgesDeg, MostAboveDeg));
    }

    [Fact]
    public void A_ray_that_goes_aside_by_more_than_it_goes_on_finds_no_ground_that_is_not_there()
    {
        // Single posts like needles: what is taken from the wrong post is far off.
        var random = new Random(1);
        var heights = new float[201 * 201];
        for (var i = 0; i < heights.Length; i++) heights[i] = (float)(900 * random.NextDouble());
        var posts = new GridPosts(201, 201, 9_200_000, 500_000, 90, 90, MapProjection.Utm(19, isNorth: true, Spheroid.Wgs84), "WGS 84 / UTM zone 19N");
        var grid = new ElevationGrid(posts, heights, "made for a test");
        var (azimuths, places) = (Enumerable.Range(0, 60).Select(i => Azimuth.FromDegrees((90 * (i % 4)) + 44.3 + (i / 4 * 0.1))).ToList(), Places(grid, 200, 2));
        var (horizons, sights) = (Run(grid, SightModel.Usual, azimuths, places), new SightLines(grid, SightModel.Usual));
        for (var i = 0; i < places.Count; i++)
            for (var j = 0; j < azimuths.Count; j++)
                Assert.InRange(double.RadiansToDegrees(horizons[(i * azimuths.Count) + j]) - sights.HorizonOf(places[i], azimuths[j]).Altitude!.Value.Degrees, -90, 0.1);
    }

    [FactNeeds<SharedTiles>]
    public void Exact_on_real_mountains_it_misses_nothing() => MissesNothing(SharedData.Tile);

    [Fact]
    public void Exact_on_a_small_piece_of_real_ground_it_misses_nothing() => MissesNothing(RealGround.Grid);

    [Property(MaxTest = 25)]
    public void Exact_on_random_ground_it_misses_nothing(int seed) => MissesNothing(RoughGround.Of(seed, size: 121), places: 20);

    [Fact]
    public void The_order_of_places_and_directions_does_not_matter()
    {
        var grid = RoughGround.Of(seed: 3, size: 401);
        var places = Places(grid, 40, 1);
        var forth = Run(grid, SightModel.Usual, AllRound, places);
        var back = Run(grid, SightModel.Usual, [.. AllRound.Reverse()], [.. places.AsEnumerable().Reverse()]);
        // Another guess to begin with: of ground between the edges of cells another part is looked at.
        foreach (var (one, other) in forth.Zip(back.Reverse())) Assert.Equal(one, other, 0.0005f);
    }

    [Fact]
    public void A_place_outside_the_grid_and_too_little_room_are_refused()
    {
        var grid = RoughGround.Of(seed: 3, size: 21);
        var fan = new HorizonFan(grid, SightModel.Usual, AllRound);
        Assert.Throws<ArgumentException>(() => fan.Run([Place.FromDegrees(50, 7, 1000)], new float[AllRound.Length]));
        Assert.Throws<ArgumentException>(() => fan.Run(Places(grid, 2, 1), new float[AllRound.Length]));
    }

    private static void MissesNothing(ElevationGrid grid, int places = 200)
    {
        var errors = Errors(grid, SightModel.Usual, places, seed: 4, isExact: true);
        TestContext.Current.TestOutputHelper?.WriteLine($"exact fan: {errors.Count} horizons; worst {errors.MaxBy(error => Math.Abs(error.Deg))}");
        Assert.All(errors, error => Assert.InRange(error.Deg, -ExactDeg, ExactDeg));
    }

    private static void KeepsWithin(ElevationGrid grid, SightModel model, int places, int leastFar = 500)
    {
        var errors = Errors(grid, model, places, seed: 1);
        var far = errors.Where(error => error.DistanceM >= FarM).ToList();
        var rms = Math.Sqrt(far.Average(error => error.Deg * error.Deg));
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"fan: {errors.Count} horizons, {far.Count} far; rms beyond 2 km {rms:0.00000}°, p95 {Percentile(errors, 0.95):0.00000}°, p99.9 {Percentile(errors, 0.999):0.00000}°, worst {errors.MaxBy(error => Math.Abs(error.Deg))}");
        Assert.True(far.Count >= leastFar, $"{far.Count} far");
        Assert.InRange(rms, 0, RmsBeyondFarDeg);
        Assert.InRange(Percentile(errors, 0.95), 0, Percentile95Deg);
        Assert.InRange(errors.Max(error => error.Deg), -1, MostAboveDeg);
    }

    private static List<(double Deg, double DistanceM)> Errors(ElevationGrid grid, SightModel model, int count, int seed, bool isExact = false)
    {
        var places = Places(grid, count, seed);
        var horizons = Run(grid, model, AllRound, places, isExact);
        var sights = new SightLines(grid, model);
        var errors = new List<(double, double)>();
        for (var i = 0; i < places.Count; i++)
        {
            for (var j = 0; j < AllRound.Length; j++)
            {
                var (found, exact) = (horizons[(i * AllRound.Length) + j], sights.HorizonOf(places[i], AllRound[j]));
                if (exact.Altitude is not { } altitude) continue;
                Assert.False(float.IsNaN(found), $"{places[i]} at {AllRound[j]}: nothing found, {altitude} is true");
                errors.Add((double.RadiansToDegrees(found) - altitude.Degrees, exact.Distance!.Value.Metres));
            }
        }
        return errors;
    }

    private static List<Place> Places(ElevationGrid grid, int count, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Repeat(0, 3 * count)
            .Select(_ => grid.Posts.ToPoint((grid.Posts.Columns - 1) * random.NextDouble(), (grid.Posts.Rows - 1) * random.NextDouble()))
            .Where(point => grid.HeightAt(point) is not null)
            .Take(count)
            .Select(point => new Place(point, grid.HeightAt(point)!.Value + Length.FromMetres(random.Next(2) == 0 ? 0 : 300 * random.NextDouble())))];
    }

    private static float[] Run(ElevationGrid grid, SightModel model, IReadOnlyList<Azimuth> azimuths, List<Place> places, bool isExact = false)
    {
        var horizons = new float[places.Count * azimuths.Count];
        new HorizonFan(grid, model, azimuths, isExact).Run(places, horizons);
        return horizons;
    }

    private static double Percentile(List<(double Deg, double DistanceM)> errors, double share) =>
        errors.Select(error => Math.Abs(error.Deg)).Order().ElementAt((int)(share * errors.Count));
}
