using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class GridCutTests
{
    private static readonly MapProjection Utm32 = MapProjection.Utm(32, isNorth: true, Spheroid.Wgs84);

    [Theory]
    [InlineData(20_000, 20_000, 0.5, 0.5, 20_000, 20_000)]
    [InlineData(30_000, 40_000, 0.5, 0.5, 20_000, 20_000)]
    [InlineData(30_000, 40_000, 0, 1, 10_000, 10_000)]
    [InlineData(10_000, 50_000, 0.5, 0.5, 10_000, 40_000)]
    [InlineData(100_000, 8_000, 0.5, 0.5, 50_000, 8_000)]
    public void A_net_too_large_is_cut_to_the_most_that_can_be_held_around_a_place(
        int rows, int columns, double downShare, double acrossShare, int rowsLeft, int columnsLeft)
    {
        var posts = Lidar(rows, columns);
        var (column, row) = (Math.Round(acrossShare * (columns - 1)), Math.Round(downShare * (rows - 1)));
        var place = posts.ToPoint(column, row);

        var cut = GridCut.ToWhatCanBeHeld(posts, new GridReading { Around = place }, "made.tif");

        Assert.True((long)cut.Rows * cut.Columns <= ElevationGrid.MostPosts);
        Assert.Equal(rowsLeft, cut.Rows, 2.0);
        Assert.Equal(columnsLeft, cut.Columns, 2.0);
        // The posts that are left stand where they stood.
        var (x, y) = cut.ToCells(place);
        Assert.Equal(Math.Round(x), x, 1e-4);
        Assert.Equal(Math.Round(y), y, 1e-4);
        var (first, second) = (posts.ToPoint(column - Math.Round(x), row - Math.Round(y)), cut.ToPoint(0, 0));
        Assert.Equal(first.LatitudeDeg, second.LatitudeDeg, 1e-9);
        Assert.Equal(first.LongitudeDeg, second.LongitudeDeg, 1e-9);
    }

    [Fact]
    public void A_net_too_large_is_refused_where_no_place_says_what_to_leave()
    {
        var refusal = Assert.Throws<BadInputException>(() => GridCut.ToWhatCanBeHeld(Lidar(30_000, 40_000), GridReading.Whole, "made.tif"));
        Assert.Contains("made.tif spans 40000 × 30000 posts; at most 400000000", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_place_outside_is_refused()
    {
        var reading = new GridReading { Around = GeoPoint.FromDegrees(10, 10), Within = Length.FromKilometres(5) };
        Assert.Contains("Does not hold the place", Assert.Throws<BadInputException>(() => GridCut.WithinReach(Lidar(30_000, 40_000), reading)).Message, StringComparison.Ordinal);
        Assert.Contains("Does not hold the place", Assert.Throws<BadInputException>(() => GridCut.ToWhatCanBeHeld(Lidar(30_000, 40_000), reading, "made.tif")).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(46)]
    [InlineData(-70)]
    public void Within_a_reach_all_ground_of_it_is_left_and_little_more(double latitude)
    {
        var posts = new GridPosts(3601, 3601, latitude + 0.5, 7, 1 / 3600.0, 1 / 3600.0);
        var place = GeoPoint.FromDegrees(latitude, 7.5);

        var cut = GridCut.WithinReach(posts, new GridReading { Around = place, Within = Length.FromKilometres(5) });

        for (var bearing = 0; bearing < 360; bearing += 5)
            Assert.True(cut.Contains(new GroundLine(place, Azimuth.FromDegrees(bearing)).At(4950)), $"on {bearing}°");
        for (var bearing = 0; bearing < 360; bearing += 90)
            Assert.False(cut.Contains(new GroundLine(place, Azimuth.FromDegrees(bearing)).At(5050)), $"on {bearing}°");
    }

    private static GridPosts Lidar(int rows, int columns) => new(rows, columns, 5_160_000, 480_000, 1, 1, Utm32, "WGS 84 / UTM zone 32N");
}
