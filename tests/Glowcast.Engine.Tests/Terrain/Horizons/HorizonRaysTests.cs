using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>Rays of many places, eight at once and each at an azimuth of its own, against the exact ray that is gone alone in double precision.</summary>
public class HorizonRaysTests
{
    // Single precision, and ways taken between the knots of a net: of a moment of light this is a twentieth of a second.
    private const double Percentile99Deg = 0.0005;
    private const double MostDeg = 0.005;

    [FactNeeds<SharedTiles>]
    public void On_real_mountains_every_horizon_is_the_exact_one() => AreExact(SharedData.Tile, SightModel.Usual, heightM: 0);

    [Fact]
    public void On_a_small_piece_of_real_ground_every_horizon_is_the_exact_one() => AreExact(RealGround.Grid, SightModel.Usual, heightM: 0);

    [Fact]
    public void Close_to_rough_ground_nothing_is_missed_between_the_edges_of_cells() =>
        AreExact(RoughGround.Of(seed: 7, size: 301), SightModel.Usual with { BeyondGrid = null }, heightM: 0);

    [Fact]
    public void From_above_rough_ground_as_well() => AreExact(RoughGround.Of(seed: 12, size: 301), SightModel.Usual, heightM: 400);

    [Fact]
    public void Over_a_sea_of_cloud_as_well() =>
        AreExact(RoughGround.Of(seed: 8, size: 301).Under(Length.FromMetres(600)), SightModel.Usual.Under(Length.FromMetres(600)), heightM: 0);

    [Fact]
    public void Over_ragged_holes_as_well() => AreExact(RoughGround.Of(seed: 2, size: 201, holes: 8000), SightModel.Usual, heightM: 0);

    [Theory]
    [InlineData(79)]
    [InlineData(88.5)]
    [InlineData(-35)]
    public void Far_from_the_middle_latitudes_as_well(double northDeg)
    {
        // Across the date line; cells are five times longer than wide, and to the second there is no cubic for the way.
        var posts = new GridPosts(201, 201, northDeg, 179.95, 1 / 1200.0, 1 / 1200.0);
        AreExact(new ElevationGrid(posts, [.. RoughGround.Of(seed: 6, size: 201).Heights], "made for a test"), SightModel.Usual, heightM: 0);
    }

    [Fact]
    public void On_the_plane_of_a_projection_azimuths_stay_true()
    {
        var posts = new GridPosts(301, 301, 7_900_000, 700_000, 90, 90, MapProjection.Utm(19, isNorth: true, Spheroid.Wgs84), "WGS 84 / UTM zone 19N");
        AreExact(new ElevationGrid(posts, [.. RoughGround.Of(seed: 4, size: 301).Heights], "made for a test"), SightModel.Usual, heightM: 0);
    }

    [Fact]
    public void What_lies_outside_the_asked_angles_is_only_told_to_do_so()
    {
        var grid = RoughGround.Of(seed: 3, size: 201);
        var place = PlacesOn(grid, 1, 0)[0];
        var exact = new SightLines(grid, SightModel.Usual).HorizonOf(place, Azimuth.FromDegrees(200)).Altitude!.Value.Radians;
        Assert.Equal(exact, Ask(exact - 0.01, exact + 0.01).AngleRad, 1e-5);
        Assert.False(Ask(exact + 0.001, exact + 0.01).Found);
        Assert.InRange(Ask(exact - 0.02, exact - 0.01).AngleRad, exact - 0.01, exact + 1e-5);

        RayFound Ask(double floorRad, double ceilingRad)
        {
            var ground = new RayGround(grid, SightModel.Usual, [place]);
            var found = new RayFound[1];
            ground.From(ground.Blocks[0]).Find([new RayAsked(0, Azimuth.FromDegrees(200).Radians, floorRad, ceilingRad, double.NaN)], found);
            return found[0];
        }
    }

    private static void AreExact(ElevationGrid grid, SightModel model, double heightM)
    {
        var places = PlacesOn(grid, 400, heightM);
        var (ground, sights, random) = (new RayGround(grid, model, places), new SightLines(grid, model), new Random(3));
        var errors = new List<double>();
        foreach (var block in ground.Blocks)
        {
            // Neighbours look in directions of their own, a few times each.
            var asked = Enumerable.Range(0, 3 * block.Places.Count)
                .Select(i => new RayAsked(i % block.Places.Count, Math.Tau * random.NextDouble(), -Math.PI / 2, Math.PI / 2, random.Next(2) == 0 ? double.NaN : 20_000 * random.NextDouble())).ToArray();
            var found = new RayFound[asked.Length];
            ground.From(block).Find(asked, found);
            foreach (var (ray, horizon) in asked.Zip(found))
            {
                var exact = sights.HorizonOf(places[block.Places[ray.Member].Place], Azimuth.FromRadians(ray.AzimuthRad));
                Assert.Equal(exact.Altitude is not null, horizon.Found);
                if (exact.Altitude is not { } altitude) continue;
                errors.Add(double.RadiansToDegrees(horizon.AngleRad) - altitude.Degrees);
                // Ridges of all but one height may be taken for each other.
                if (exact.IsBeyondGrid != horizon.IsBeyondGrid) Assert.InRange(Math.Abs(errors[^1]), 0, Percentile99Deg);
            }
        }
        var sizes = errors.Select(Math.Abs).Order().ToList();
        TestContext.Current.TestOutputHelper?.WriteLine($"{sizes.Count} horizons: p99 {sizes[(int)(0.99 * sizes.Count)]:0.000000}°, worst {errors.MaxBy(Math.Abs):0.00000}°");
        Assert.True(sizes.Count > 300);
        Assert.InRange(sizes[(int)(0.99 * sizes.Count)], 0, Percentile99Deg);
        Assert.InRange(sizes[^1], 0, MostDeg);
    }

    private static List<Place> PlacesOn(ElevationGrid grid, int count, double heightM)
    {
        var random = new Random(5);
        return [.. Enumerable.Repeat(0, 10 * count)
            .Select(_ => grid.Posts.ToPoint(1 + ((grid.Posts.Columns - 3) * random.NextDouble()), 1 + ((grid.Posts.Rows - 3) * random.NextDouble())))
            .Where(point => grid.HeightAt(point) is not null)
            .Take(count)
            .Select(point => new Place(point, grid.HeightAt(point)!.Value + Length.FromMetres(heightM)))];
    }
}
