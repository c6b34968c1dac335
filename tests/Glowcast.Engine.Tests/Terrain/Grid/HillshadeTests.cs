using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class HillshadeTests
{
    private const int Size = 24;

    /// <summary>Shades by <c>gdaldem hillshade</c> 3.6.2 (Reference/terrain/PROVENANCE.md): the same slopes by Horn, lamp 315° and 45°.</summary>
    private static readonly IReadOnlyList<ReferenceRow> Gdal = ReferenceData.Rows("terrain/hillshade_gdaldem.csv");

    [Fact]
    public void Ground_is_as_bright_as_gdal_has_it()
    {
        var posts = new GridPosts(Size, Size, 5_149_987.5 + 12.5, 400_000, 25, 25, MapProjection.Utm(32, isNorth: true, Spheroid.Wgs84), "UTM 32N");
        var heights = Gdal.Select(row => row.Has("height_m") ? (float)row.Number("height_m") : float.NaN).ToArray();
        var grid = new ElevationGrid(posts, heights, "made");

        foreach (var row in Gdal)
        {
            var post = posts.ToPoint(row.Number("column"), row.Number("row"));
            var around = new GeoWindow(post.LatitudeDeg + 1e-6, post.LatitudeDeg - 1e-6, post.LongitudeDeg - 1e-6, post.LongitudeDeg + 1e-6);
            var shade = Hillshade.Of(grid, around, 1, 1, TestContext.Current.CancellationToken).Shades[0];
            Assert.Equal(row.Number("shade"), shade, 1.0);
        }
    }

    [Fact]
    public void A_window_larger_than_the_grid_shows_the_grid_where_it_lies()
    {
        var posts = new GridPosts(101, 101, 47, 7, 0.01, 0.01);
        var heights = new float[101 * 101];
        for (var i = 0; i < heights.Length; i++) heights[i] = 100 * (i % 101);
        var picture = Hillshade.Of(new ElevationGrid(posts, heights, "ramp"), new GeoWindow(48, 45, 6, 9), 30, 30, TestContext.Current.CancellationToken);

        var western = picture.Shades[(15 * 30) + 15];
        Assert.InRange(western, 181, 255);
        Assert.Equal(Hillshade.NoGround, picture.Shades[(15 * 30) + 5]);
        Assert.Equal(Hillshade.NoGround, picture.Shades[(5 * 30) + 15]);
        Assert.Equal(Hillshade.NoGround, picture.Shades[(25 * 30) + 15]);
    }

    [Fact]
    public void Flat_ground_is_as_bright_as_the_sine_of_the_lamps_altitude()
    {
        var flat = new ElevationGrid(new GridPosts(11, 11, 47, 7, 0.01, 0.01), new float[121], "flat");
        var picture = Hillshade.Of(flat, new GeoWindow(46.96, 46.94, 7.04, 7.06), 2, 2, TestContext.Current.CancellationToken);
        foreach (var shade in picture.Shades) Assert.Equal((byte)Math.Round(1 + (254 * Math.Sqrt(0.5))), shade);
    }

    [Fact]
    public void It_can_be_stopped()
    {
        var flat = new ElevationGrid(new GridPosts(11, 11, 47, 7, 0.01, 0.01), new float[121], "flat");
        Assert.Throws<OperationCanceledException>(() => Hillshade.Of(flat, new GeoWindow(47, 46.9, 7, 7.1), 8, 8, new CancellationToken(canceled: true)));
    }
}
