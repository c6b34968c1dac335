using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class MixedMosaicTests
{
    [Fact]
    public void The_finest_that_covers_a_point_wins_and_a_coarser_one_carries_on()
    {
        // 36″ on the whole degree; 12″ in its middle, 5 m higher, with a hole of its own.
        var coarse = Grids.Square(46, 7, (row, column) => Plane(47 - (row / 100.0), 7 + (column / 100.0)), size: 101);
        var fine = Filled(new GridPosts(100, 120, 46.6, 7.3, 1 / 300.0, 1 / 300.0), point => Plane(point.LatitudeDeg, point.LongitudeDeg) + 5, hole: (50, 60));

        var joined = GridMosaic.Join([coarse, fine]);

        Assert.Equal((301, 301, 0), (joined.Posts.Rows, joined.Posts.Columns, joined.Relief.Holes));
        Assert.Equal(Plane(46.5, 7.4) + 5, joined.HeightAt(GeoPoint.FromDegrees(46.5, 7.4))!.Value.Metres, 0.001);
        Assert.Equal(Plane(46.2, 7.8), joined.HeightAt(GeoPoint.FromDegrees(46.2, 7.8))!.Value.Metres, 0.001);
        var hole = fine.Posts.ToPoint(60, 50);
        Assert.Equal(Plane(hole.LatitudeDeg, hole.LongitudeDeg), joined.HeightAt(hole)!.Value.Metres, 0.001);
    }

    [Fact]
    public void Nets_of_different_systems_meet_without_a_step_or_a_gap()
    {
        // A UTM net of 60 m beside a geographic one of 5″, which ends inside it; heights are one plane.
        var utm = Filled(
            new GridPosts(500, 400, 5_160_000, 480_000, 60, 60, MapProjection.Utm(32, isNorth: true, Spheroid.Wgs84), "WGS 84 / UTM zone 32N"),
            point => Plane(point.LatitudeDeg, point.LongitudeDeg));
        var geographic = Filled(new GridPosts(400, 300, 46.6, 9.0, 5 / 3600.0, 5 / 3600.0), point => Plane(point.LatitudeDeg, point.LongitudeDeg));

        var joined = GridMosaic.Join([geographic, utm]);

        Assert.Same(utm.Posts.Projection, joined.Posts.Projection);
        var covered = 0;
        for (var latitude = 46.335; latitude < 46.55; latitude += 0.00391)
        {
            for (var longitude = 8.76; longitude < 9.4; longitude += 0.00317)
            {
                // Every part of the line from one grid through the other has ground, and it is the plane.
                var point = GeoPoint.FromDegrees(latitude, longitude);
                var height = joined.HeightAt(point);
                Assert.True(height is not null, $"a gap at {point}");
                Assert.Equal(Plane(latitude, longitude), height!.Value.Metres, 0.05);
                covered++;
            }
        }
        Assert.True(covered > 5000);
    }

    [Fact]
    public void No_gap_opens_between_neighbours_whose_posts_do_not_meet()
    {
        // Areas that touch: the first ends half a cell after its last post, the second begins half a cell before its first.
        var west = Filled(new GridPosts(50, 50, 46.5, 7.0, 0.001, 0.001), _ => 100);
        var east = Filled(new GridPosts(30, 30, 46.5, 7.0 + 0.0495 + 0.00085, 0.0017, 0.0017), _ => 100);
        var joined = GridMosaic.Join([west, east]);
        for (var longitude = 7.0; longitude < 7.09; longitude += 0.0003)
            Assert.Equal(100, joined.HeightAt(GeoPoint.FromDegrees(46.48, longitude))!.Value.Metres);
    }

    [Fact]
    public void What_cannot_be_one_grid_is_refused()
    {
        var coarse = Grids.Square(46, 7, (_, _) => 100, size: 101);
        var posts = new GridPosts(100, 120, 46.6, 7.3, 1 / 300.0, 1 / 300.0);
        Refused("disagrees", coarse, Filled(posts, _ => 160));
        Refused("from one level", Filled(posts, _ => 100, datum: "EGM96"), Filled(new GridPosts(100, 120, 46.6, 7.3, 1 / 100.0, 1 / 100.0), _ => 100, datum: "NAVD88"));
        Refused("at most 400000000", coarse, Filled(new GridPosts(10, 10, 46.6, 7.3, 1e-6, 1e-6), _ => 100));
        Refused("too far apart", Grids.Square(46, 7, (_, _) => 100, size: 301), Grids.Square(-46, -170, (_, _) => 100, size: 301));

        static void Refused(string says, params ElevationGrid[] grids) =>
            Assert.Contains(says, Assert.Throws<BadInputException>(() => GridMosaic.Join(grids)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_datum_is_named_only_where_every_tile_names_it()
    {
        var (one, two) = (new GridPosts(10, 10, 46, 7, 0.1, 0.1), new GridPosts(10, 10, 46, 7.9, 0.1, 0.1));
        Assert.Equal("EGM96", GridMosaic.Join([Filled(one, _ => 1, datum: "EGM96"), Filled(two, _ => 1, datum: "EGM96")]).VerticalDatum);
        Assert.Null(GridMosaic.Join([Filled(one, _ => 1, datum: "EGM96"), Filled(two, _ => 1)]).VerticalDatum);
    }

    private static double Plane(double latitudeDeg, double longitudeDeg) => 500 + (1000 * (latitudeDeg - 46)) + (700 * (longitudeDeg - 7));

    private static ElevationGrid Filled(GridPosts posts, Func<GeoPoint, double> height, (int Row, int Column)? hole = null, string? datum = null)
    {
        var heights = new float[posts.Rows * posts.Columns];
        for (var row = 0; row < posts.Rows; row++)
            for (var column = 0; column < posts.Columns; column++)
                heights[(row * posts.Columns) + column] = (row, column) == hole ? float.NaN : (float)height(posts.ToPoint(column, row));
        return new ElevationGrid(posts, heights, "made for a test", datum);
    }
}
