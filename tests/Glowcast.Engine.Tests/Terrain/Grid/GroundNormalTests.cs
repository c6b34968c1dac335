using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>Normals of the ground against closed forms, and against two other programs' stencils on two real tiles (Reference/picture, A).</summary>
public class GroundNormalTests
{
    private const string UtmTile = "bigtujunga_utm11n.tif";

    private static readonly Lazy<ILookup<string, ReferenceRow>> Incidences =
        new(() => ReferenceData.Rows("picture/slopes_incidence.csv").ToLookup(row => row["id"]));

    private static readonly Lazy<ElevationGrid> Utm = new(() => SharedData.Read(UtmTile));

    // A central difference misses by h²f‴/6; on a cone of slope 45° the rise has f‴ ≤ 3/r², on the spheres less.
    [Theory]
    [InlineData(10)]
    [InlineData(30)]
    [InlineData(90)]
    public void Plane_cone_and_sphere_are_met_within_the_square_of_the_cell(double cellM)
    {
        foreach (var row in ReferenceData.Rows("picture/slopes_analytic.csv"))
        {
            var grid = Around(row, cellM);
            var found = GroundNormal.At(grid, grid.Posts.Centre)!.Value.CosTo(Sun(row, "sun_azimuth_deg"));
            var allowed = row["surface"] == "plane" ? 0 : Math.Pow(cellM / double.Hypot(row.Number("x_m"), row.Number("y_m")), 2) / 2;
            Assert.Equal(row.Number("exact_n_dot_s"), found, allowed + 2e-5);
        }
    }

    [FactNeeds<SharedTiles>]
    public void Weighed_over_three_rows_and_columns_they_are_the_stencil_of_nine_posts_that_two_programs_use()
    {
        CompareAll("horn_post", (grid, x, y) => Rise(grid, [(x, y - 1, 0.25), (x, y, 0.5), (x, y + 1, 0.25)], [(x - 1, y, 0.25), (x, y, 0.5), (x + 1, y, 0.25)]));
    }

    [FactNeeds<SharedTiles>]
    public void On_the_lines_through_the_middle_of_a_cell_they_are_the_cells_own()
    {
        CompareAll("bilinear_exact", (grid, x, y) => Rise(grid, [(Math.Floor(x) + 0.5, y, 1)], [(x, Math.Floor(y) + 0.5, 1)]));
    }

    [Fact]
    public void Across_a_post_nothing_jumps()
    {
        var grid = RoughGround.Of(1, 100);
        var point = grid.Posts.ToPoint(40, 40);
        var here = GroundNormal.At(grid, point)!.Value;
        foreach (var (dx, dy) in ((double, double)[])[(1e-6, 0), (-1e-6, 0), (0, 1e-6), (0, -1e-6)])
        {
            var beside = GroundNormal.At(grid, grid.Posts.ToPoint(40 + dx, 40 + dy))!.Value;
            Assert.Equal(here.East, beside.East, 1e-5);
            Assert.Equal(here.North, beside.North, 1e-5);
        }
    }

    [Fact]
    public void On_the_edge_of_the_grid_and_beside_a_hole_the_side_with_ground_decides()
    {
        var grid = Grids.Square(46, 7, (row, column) => column == 60 && row == 60 ? float.NaN : 1000 + (10 * column) + (20 * row), 121);
        var inside = GroundNormal.At(grid, grid.Posts.ToPoint(20, 20))!.Value;
        foreach (var (x, y) in ((double, double)[])[(0, 20), (120, 20), (20, 0), (20, 120), (61, 62), (59, 58)])
            Assert.Equal(inside.Slope.Degrees, GroundNormal.At(grid, grid.Posts.ToPoint(x, y))!.Value.Slope.Degrees, 0.05);
        Assert.Null(GroundNormal.At(grid, grid.Posts.ToPoint(60.2, 60.2)));
        Assert.Null(GroundNormal.At(grid, GeoPoint.FromDegrees(48, 7.5)));
    }

    // GRASS r.sun, without shadow: the beam on a slope over that on level ground is n·s / sin h.
    [FactNeeds<SharedTiles>]
    public void The_beam_on_a_slope_over_that_on_level_ground_is_what_another_program_finds()
    {
        foreach (var row in ReferenceData.Rows("picture/beam_points.csv"))
        {
            var (grid, x, y) = (TileOf(row), row.Number("col"), row.Number("row"));
            var rise = Rise(grid, [(x, y - 1, 0.25), (x, y, 0.5), (x, y + 1, 0.25)], [(x - 1, y, 0.25), (x, y, 0.5), (x + 1, y, 0.25)]);
            var normal = GroundNormal.OfRise(rise.East, rise.North);
            var azimuth = row.Number("sun_azimuth_grid_deg") + Convergence(grid, x, y);
            var sin = Angle.FromDegrees(row.Number("sun_altitude_deg")).Sin();
            Assert.Equal(row.Number("ratio_rsun") * sin, Math.Max(0, normal.CosTo(Toward(azimuth, row.Number("sun_altitude_deg")))), 0.001);
        }
    }

    private static void CompareAll(string method, Func<ElevationGrid, double, double, (double East, double North)> rise)
    {
        var rows = ReferenceData.Rows("picture/slopes_points.csv").Where(row => row["method"] == method && HasTile(row)).ToList();
        Assert.NotEmpty(rows);
        foreach (var row in rows)
        {
            var (east, north) = rise(TileOf(row), row.Number("col"), row.Number("row"));
            var normal = GroundNormal.OfRise(east, north);
            Assert.Equal(row.Number("slope_deg"), normal.Slope.Degrees, 0.012);
            foreach (var sun in Incidences.Value[row["id"]])
                Assert.Equal(sun.Number("n_dot_s"), normal.CosTo(Sun(sun, "sun_azimuth_true_deg")), 0.0005);
        }
    }

    // The rise along columns at some places and along rows at others, taken together and turned to true north.
    private static (double East, double North) Rise(ElevationGrid grid, (double X, double Y, double Weight)[] alongColumns, (double X, double Y, double Weight)[] alongRows)
    {
        var middle = grid.Posts.ToPoint(alongColumns.Average(place => place.X), alongColumns.Average(place => place.Y));
        var turnRad = double.DegreesToRadians(Convergence(grid, grid.Posts.ToCells(middle).X, grid.Posts.ToCells(middle).Y));
        var (sin, cos) = Math.SinCos(turnRad);
        var across = alongColumns.Sum(place => place.Weight * InGrid(place.X, place.Y).Across);
        var up = alongRows.Sum(place => place.Weight * InGrid(place.X, place.Y).Up);
        return ((across * cos) + (up * sin), (up * cos) - (across * sin));

        (double Across, double Up) InGrid(double x, double y)
        {
            var normal = GroundNormal.At(grid, grid.Posts.ToPoint(x, y))!.Value;
            var (east, north) = (-normal.East / normal.Up, -normal.North / normal.Up);
            return ((east * cos) - (north * sin), (east * sin) + (north * cos));
        }
    }

    // True bearing of the grid's north.
    private static double Convergence(ElevationGrid grid, double x, double y) =>
        grid.Posts.Projection is null ? 0 : Geodesic.Between(grid.Posts.ToPoint(x, y + 1), grid.Posts.ToPoint(x, y - 1)).Bearing.Degrees;

    private static bool HasTile(ReferenceRow row) => row["tile"] is "N44W072.hgt" or UtmTile;

    private static ElevationGrid TileOf(ReferenceRow row) => row["tile"] == UtmTile ? Utm.Value : SharedData.Tile;

    private static (double East, double North, double Up) Sun(ReferenceRow row, string azimuth) => Toward(row.Number(azimuth), row.Number("sun_altitude_deg"));

    private static (double East, double North, double Up) Toward(double azimuthDeg, double altitudeDeg)
    {
        var (azimuth, altitude) = (Angle.FromDegrees(azimuthDeg), Angle.FromDegrees(altitudeDeg));
        return (azimuth.Sin() * altitude.Cos(), azimuth.Cos() * altitude.Cos(), altitude.Sin());
    }

    // Seven posts by seven on the equator, where the metres of the surface are those of the ellipsoid.
    private static ElevationGrid Around(ReferenceRow row, double cellM)
    {
        const int size = 7;
        var height = Surface(row["parameters"]);
        var (latitudeStep, longitudeStep) = (double.RadiansToDegrees(cellM / Wgs84.MeridianRadiusM(0)), double.RadiansToDegrees(cellM / Wgs84.SemiMajorAxisM));
        var heights = new float[size * size];
        for (var i = 0; i < heights.Length; i++)
            heights[i] = (float)height(row.Number("x_m") + (cellM * ((i % size) - (size / 2))), row.Number("y_m") - (cellM * ((i / size) - (size / 2))));
        return new ElevationGrid(new GridPosts(size, size, latitudeStep * (size / 2), -longitudeStep * (size / 2), latitudeStep, longitudeStep), heights, "made for a test");
    }

    private static Func<double, double, double> Surface(string parameters)
    {
        var words = parameters.Split(' ');
        double At(int word) => double.Parse(words[word], System.Globalization.CultureInfo.InvariantCulture);
        if (parameters.StartsWith("plane", StringComparison.Ordinal)) return (x, y) => (At(7) * x) + (At(10) * y);
        if (parameters.StartsWith("cone", StringComparison.Ordinal)) return (x, y) => At(3) - (At(5) * double.Hypot(x, y));
        var radius = double.Parse(words[4]["sqrt(".Length..words[4].IndexOf('^', StringComparison.Ordinal)], System.Globalization.CultureInfo.InvariantCulture);
        return (x, y) => Math.Sqrt((radius * radius) - (x * x) - (y * y)) - At(8);
    }
}
