using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>What is taken to stand past the edge of a grid when nobody says.</summary>
public class EdgeHeightsTests
{
    // A high plain: 4000 m in the west, 5000 m in the east, and 4500 m along the north and the south.
    private static readonly ElevationGrid Inland = Grids.Square(30, 80, (_, column) => 4000 + (1000.0 * column / 120), 121);

    [Theory]
    [InlineData(90, 5000)]
    [InlineData(270, 4000)]
    [InlineData(0, 4500)]
    [InlineData(180, 4500)]
    public void Straight_across_an_edge_it_is_the_median_along_that_edge(double azimuthDeg, double heightM) =>
        Assert.Equal(heightM, SightModel.Usual.BeyondGrid.Towards(Azimuth.FromDegrees(azimuthDeg), Inland)!.Value.Metres, 2.0);

    // One degree of latitude is 110.9 km here and one of longitude 95.9 km (31°): weights 110.9 sin A and 95.9 cos A.
    [Fact]
    public void In_between_each_edge_counts_by_its_length_across_the_direction()
    {
        var towards = SightModel.Usual.BeyondGrid.Towards(Azimuth.FromDegrees(30), Inland)!.Value.Metres;
        var (east, north) = (110.9 * Math.Sin(Math.PI / 6), 95.9 * Math.Cos(Math.PI / 6));
        Assert.Equal(((5000 * east) + (4500 * north)) / (east + north), towards, 5.0);
    }

    [Fact]
    public void It_turns_without_a_jump()
    {
        for (var azimuth = 0.0; azimuth < 360; azimuth += 0.25)
        {
            var (one, next) = (Towards(azimuth), Towards(azimuth + 0.25));
            Assert.InRange(Math.Abs(one - next), 0, 8);
        }

        static double Towards(double azimuthDeg) => SightModel.Usual.BeyondGrid.Towards(Azimuth.FromDegrees(azimuthDeg), Inland)!.Value.Metres;
    }

    [Fact]
    public void An_edge_that_is_mostly_sea_is_sea()
    {
        var coast = Grids.Square(30, 80, (row, column) => column > 80 ? 0 : row < 50 && column == 0 ? 0 : 700, 121);
        Assert.Equal(0, SightModel.Usual.BeyondGrid.Towards(Azimuth.FromDegrees(90), coast)!.Value.Metres, 1.0);
        Assert.Equal(700, SightModel.Usual.BeyondGrid.Towards(Azimuth.FromDegrees(270), coast)!.Value.Metres, 1.0);
    }

    [Fact]
    public void Edges_without_ground_have_no_say()
    {
        var hollow = Grids.Square(30, 80, (_, column) => column == 120 ? double.NaN : 1500, 121);
        Assert.Equal(1500, SightModel.Usual.BeyondGrid.Towards(Azimuth.FromDegrees(80), hollow)!.Value.Metres, 0.1);
    }

    // A ridge of 3000 m runs into the southern edge at column 30, a hill of 1200 m into the eastern one at row 90; else 500 m. Posts lie some 800 to 924 m apart.
    [Theory]
    [InlineData(120, 90, 5_000, 1200)]
    [InlineData(120, 60, 5_000, 500)]
    [InlineData(120, 60, 40_000, 1200)]
    [InlineData(120, 60, 500_000, 1200)]
    [InlineData(60, 120, 5_000, 500)]
    [InlineData(60, 120, 30_000, 3000)]
    [InlineData(60, 0, 100_000, 500)]
    public void What_could_stand_past_the_edge_is_judged_by_the_side_through_which_the_ray_leaves(double x, double y, double reachM, double highestM)
    {
        var grid = Grids.Square(30, 80, (row, column) => row == 120 && column == 30 ? 3000 : column == 120 && row == 90 ? 1200 : 500, 121);
        Assert.Equal(highestM, grid.EdgeHeights.HighestNearM(x, y, reachM), 0.01);
    }

    // Over level ground that goes on past the edge the horizon is the dip of that ground, not of a sea 4500 m below.
    [Fact]
    public void The_horizon_over_a_high_plain_is_the_dip_to_the_plain()
    {
        var plain = Grids.Square(30, 80, (_, _) => 4500, 121);
        var eye = Place.FromDegrees(30.5, 80.5, 4600);
        var horizon = new SightLines(plain, SightModel.Usual).HorizonOf(eye, Azimuth.FromDegrees(90));
        // −√(2 Δh (1 − k)/R).
        Assert.Equal(-Math.Sqrt(2 * 100 * 0.87 / 6_371_000), horizon.Altitude!.Value.Radians, 2e-6);
        var sea = new SightLines(plain, SightModel.Usual with { BeyondGrid = Length.Zero }).HorizonOf(Place.FromDegrees(30.5, 80.999, 4600), Azimuth.FromDegrees(90));
        Assert.True(sea.Altitude!.Value.Degrees < -1.5);
    }

    [Fact]
    public void Exact_ray_fan_and_sweep_take_the_same_ground_past_the_edge()
    {
        var grid = RoughGround.Of(seed: 4, size: 121);
        var place = new Place(grid.Posts.ToPoint(60, 60), Length.FromMetres(4000));
        var azimuths = Enumerable.Range(0, 36).Select(i => Azimuth.FromDegrees(10 * i)).ToList();
        var fan = new float[azimuths.Count];
        new HorizonFan(grid, SightModel.Usual, azimuths, isExact: true).Run([place], fan);
        for (var i = 0; i < azimuths.Count; i++)
            Assert.Equal(new SightLines(grid, SightModel.Usual).HorizonOf(place, azimuths[i]).Altitude!.Value.Degrees, double.RadiansToDegrees(fan[i]), 0.001);
    }
}
