using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class ProjectedGridTests
{
    // Geodetic to plane by PROJ 9.1, an independent implementation, e.g.
    // echo "-118.15 34.32" | gdaltransform -s_srs "+proj=longlat +datum=WGS84" -t_srs EPSG:32611 -output_xy
    [Theory]
    [InlineData("utm 11 north", 34.32, -118.15, 394197.269088903, 3798236.57407428)]
    [InlineData("utm 17 south", -9.64, -78.3, 796332.008475355, 8933220.09315388)]
    [InlineData("utm 32 north", 60, 14, 778711.229752369, 6661953.04054491)]
    [InlineData("lambert 49 44", 45.83, 6.86, 999540.309032602, 6532918.11501454)]
    [InlineData("lambert -36 -44", -43, 170, -407050.851226174, -343958.166009807)]
    [InlineData("albers", 44.27, -71.3, 1944025.91978342, 2618488.00020997)]
    public void Projections_agree_with_another_implementation(string which, double latitude, double longitude, double east, double north)
    {
        var projection = which switch
        {
            "utm 11 north" => MapProjection.Utm(11, isNorth: true, Spheroid.Wgs84),
            "utm 17 south" => MapProjection.Utm(17, isNorth: false, Spheroid.Wgs84),
            "utm 32 north" => MapProjection.Utm(32, isNorth: true, Spheroid.Wgs84),
            "lambert 49 44" => MapProjection.LambertConformal(
                new ProjectionNumbers(46.5, 3) { Parallel1Deg = 49, Parallel2Deg = 44, FalseEastingM = 700_000, FalseNorthingM = 6_600_000 }, Spheroid.Grs80),
            "lambert -36 -44" => MapProjection.LambertConformal(
                new ProjectionNumbers(-40, 175) { Parallel1Deg = -36, Parallel2Deg = -44 }, Spheroid.Grs80),
            _ => MapProjection.Albers(new ProjectionNumbers(23, -96) { Parallel1Deg = 29.5, Parallel2Deg = 45.5 }, Spheroid.Grs80),
        };

        var (e, n) = projection.ToPlane(latitude, longitude);
        var (backLatitude, backLongitude) = projection.FromPlane(e, n);

        Assert.Equal(east, e, 0.0001);
        Assert.Equal(north, n, 0.0001);
        Assert.Equal(latitude, backLatitude, 1e-8);
        Assert.Equal(longitude, backLongitude, 1e-8);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(63.4)]
    [InlineData(180)]
    [InlineData(291)]
    public void A_path_keeps_to_the_geodesic_far_across_a_projected_grid(double azimuthDeg)
    {
        var posts = Utm19(rows: 12_000, columns: 12_000, northM: 5_060_000, westM: 140_000);
        var from = GeoPoint.FromDegrees(44.27, -71.3);
        var path = new CellPath(posts);
        path.Aim(from.Latitude.Radians, from.Longitude.Radians, Azimuth.FromDegrees(azimuthDeg).Radians);

        for (var distanceM = 500.0; distanceM < 140_000; distanceM += 3771)
        {
            var cell = path.At(distanceM);
            // The inverse problem, by another method, leads back to where the path set out for.
            var line = Geodesic.Between(from, posts.ToPoint(cell.X, cell.Y));
            Assert.Equal(distanceM, line.Distance.Metres, 0.003);
            Assert.Equal(0, Azimuth.FromDegrees(azimuthDeg).TurnTo(line.Bearing).Radians * distanceM, 0.003);
        }
    }

    [Fact]
    public void A_path_may_be_asked_for_far_places_at_once()
    {
        var posts = new GridPosts(10_801, 10_801, 46, 7, 1 / 3600.0, 1 / 3600.0);
        var from = GeoPoint.FromDegrees(43.01, 7.01);
        var path = new CellPath(posts);
        foreach (var distanceM in (double[])[100, 170_000, 300_000, 20_000])
        {
            path.Aim(from.Latitude.Radians, from.Longitude.Radians, double.DegreesToRadians(35));
            var cell = path.At(distanceM);
            Assert.Equal(distanceM, Geodesic.Between(from, posts.ToPoint(cell.X, cell.Y)).Distance.Metres, 0.01);
        }
    }

    [Fact]
    public void Grid_north_is_not_taken_for_true_north()
    {
        // Two degrees west of its central meridian a UTM grid is turned by −1.6°; a hundredth of that would show here.
        var posts = Utm19(rows: 1000, columns: 1000, northM: 4_930_000, westM: 300_000);
        var eye = posts.ToPoint(500, 900);
        var alongColumn = Geodesic.Between(eye, posts.ToPoint(500, 100)).Bearing;
        Assert.Equal(-1.6, Azimuth.FromDegrees(0).TurnTo(alongColumn).Degrees, 0.1);
        // A tower due true north, 20 km away, three posts wide.
        var top = new GroundLine(eye, Azimuth.FromDegrees(0)).At(20_000);
        var (x, y) = posts.ToCells(top);
        var grid = Filled(posts, (row, column) => Math.Abs(row - y) < 1.5 && Math.Abs(column - x) < 1.5 ? 900 : 100);
        var sights = new SightLines(grid, SightModel.Usual with { BeyondGrid = null });

        var north = sights.HorizonOf(new Place(eye, Length.FromMetres(102)), Azimuth.FromDegrees(0));
        var aside = sights.HorizonOf(new Place(eye, Length.FromMetres(102)), alongColumn);

        Assert.Equal(20_000, north.Distance!.Value.Metres, 60.0);
        Assert.Equal(double.RadiansToDegrees(Math.Atan(798 / 19_985.0)) - 0.078, north.Altitude!.Value.Degrees, 0.01);
        Assert.True(aside.Altitude!.Value < Angle.Zero);
    }

    [Fact]
    public void The_same_ground_has_the_same_horizons_in_either_net()
    {
        // Hills that end before the edge of either grid.
        static double Height(GeoPoint point) =>
            Math.Max(0, 1 - Math.Pow(double.Hypot((point.LatitudeDeg - 44.35) / 0.1, (point.LongitudeDeg + 71.3) / 0.13), 4))
            * (800 + (500 * Math.Sin(point.LatitudeDeg * 60) * Math.Cos(point.LongitudeDeg * 45)));
        var projected = Utm19(rows: 1400, columns: 1400, northM: 4_930_000, westM: 300_000);
        var geographic = new GridPosts(1400, 1400, 44.55, -71.6, 1 / 3600.0, 1 / 3600.0);
        var eye = GeoPoint.FromDegrees(44.35, -71.3);
        var (one, other, compared) = (Sights(projected), Sights(geographic), 0);

        for (var azimuth = 0; azimuth < 360; azimuth += 15)
        {
            // The two bilinear surfaces differ by a few centimetres.
            var (a, b) = (one.HorizonOf(Eye(), Azimuth.FromDegrees(azimuth)), other.HorizonOf(Eye(), Azimuth.FromDegrees(azimuth)));
            // Where no hill stands up, the plain's end is the edge of the grid, which the two do not share.
            if (Math.Max(a.Distance!.Value.Kilometres, b.Distance!.Value.Kilometres) > 10) continue;
            Assert.Equal(a.Altitude!.Value.Degrees, b.Altitude!.Value.Degrees, 0.001);
            compared++;
        }
        Assert.True(compared >= 20, $"only {compared} horizons are hills");

        Place Eye() => new(eye, Length.FromMetres(900));
        SightLines Sights(GridPosts posts) =>
            new(Filled(posts, (row, column) => Height(posts.ToPoint(column, row))), SightModel.Usual with { BeyondGrid = null });
    }

    [Fact]
    public void A_point_on_the_far_side_of_the_earth_is_not_in_a_projected_grid()
    {
        var posts = Utm19(rows: 1000, columns: 1000, northM: 4_930_000, westM: 300_000);
        Assert.True(posts.Contains(GeoPoint.FromDegrees(44.4, -71.4)));
        for (var longitude = -180; longitude < 180; longitude++)
            Assert.Equal(longitude == -71, Enumerable.Range(-90, 181).Any(latitude => posts.Contains(GeoPoint.FromDegrees(Math.Min(90, latitude + 0.4), longitude - 0.4))));
    }

    [Fact]
    public void A_net_beyond_its_projection_is_refused()
    {
        var refusal = Assert.Throws<BadInputException>(() => Utm19(rows: 100, columns: 100, northM: 12_000_000, westM: 6_000_000));
        Assert.Contains("does not hold", refusal.Message, StringComparison.Ordinal);
    }

    private static GridPosts Utm19(int rows, int columns, double northM, double westM) =>
        new(rows, columns, northM, westM, 30, 30, MapProjection.Utm(19, isNorth: true, Spheroid.Wgs84), "WGS 84 / UTM zone 19N");

    private static ElevationGrid Filled(GridPosts posts, Func<int, int, double> height)
    {
        var heights = new float[posts.Rows * posts.Columns];
        for (var row = 0; row < posts.Rows; row++)
            for (var column = 0; column < posts.Columns; column++)
                heights[(row * posts.Columns) + column] = (float)height(row, column);
        return new ElevationGrid(posts, heights, "made for a test");
    }
}
