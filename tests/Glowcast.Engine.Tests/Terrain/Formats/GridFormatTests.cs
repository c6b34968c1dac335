using System.Buffers.Binary;
using System.Text;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class GridFormatTests
{
    [Theory]
    [InlineData("N46E007.hgt", 1201, 46, 7)]
    [InlineData("s33w071.HGT", 1201, -33, -71)]
    [InlineData("N00E000.hgt", 3601, 0, 0)]
    public void An_hgt_name_is_the_centre_of_its_south_west_sample(string name, int size, int south, int west)
    {
        var bytes = new byte[size * size * 2];
        void Put(int row, int column, short height) => BinaryPrimitives.WriteInt16BigEndian(bytes.AsSpan(((row * size) + column) * 2), height);
        Put(0, 0, 111);
        Put(size - 1, 0, 222);
        Put(size - 1, size - 1, -12);
        Put(1, 1, -32768);

        var grid = GridFile.Read(new MemoryStream(bytes), name);

        Assert.Equal(size, grid.Posts.Rows);
        Assert.Equal(222, grid.HeightAt(GeoPoint.FromDegrees(south, west))!.Value.Metres);
        Assert.Equal(111, grid.HeightAt(GeoPoint.FromDegrees(south + 1, west))!.Value.Metres);
        Assert.Equal(-12, grid.HeightAt(GeoPoint.FromDegrees(south, west + 1))!.Value.Metres);
        Assert.Equal(1, grid.Relief.Holes);
        Assert.Equal(-12, grid.Relief.Lowest!.Value.Metres);
        Assert.Null(grid.HeightAt(grid.Posts.ToPoint(1, 1)));
        Assert.Null(grid.HeightAt(GeoPoint.FromDegrees(south + 0.5, west - 0.01)));
    }

    [Theory]
    [InlineData("N46E007.hgt", 100, "2884802")]
    [InlineData("N46E007.hgt", 0, "2884802")]
    [InlineData("valley.hgt", 2884802, "N46E007")]
    [InlineData("N91E007.hgt", 2884802, "off the earth")]
    [InlineData("N46E007.flt", 2884802, "no elevation format")]
    public void A_wrong_hgt_is_refused_with_what_would_be_right(string name, int length, string says)
    {
        var refusal = Assert.Throws<BadInputException>(() => GridFile.Read(new MemoryStream(new byte[length]), name));
        Assert.Contains(says, refusal.Message, StringComparison.Ordinal);
        Assert.Equal(name, Assert.Single(refusal.Faults).Field);
    }

    [Fact]
    public void An_ascii_grid_is_read_whatever_its_line_breaks_and_letter_case()
    {
        var grid = Ascii("""
            NCOLS 3
            nrows 2
            XLLCENTER 7.0
            yllcenter 46.0
            cellsize 0.5
            NODATA_value -99
            1 2.5 3
            4 -99
            6
            """);

        Assert.Equal(2.5, grid.HeightAt(GeoPoint.FromDegrees(46.5, 7.5))!.Value.Metres);
        Assert.Equal(4, grid.HeightAt(GeoPoint.FromDegrees(46, 7))!.Value.Metres);
        Assert.Equal(1, grid.Relief.Holes);
    }

    [Fact]
    public void A_corner_lies_half_a_cell_outside_the_south_west_post()
    {
        var grid = Ascii("ncols 2 nrows 2 xllcorner 7 yllcorner 46 cellsize 0.5 1 2 3 4");
        Assert.Equal(46.25, grid.Posts.SouthDeg, 12);
        Assert.Equal(7.25, grid.Posts.WestDeg, 12);
        Assert.Equal(3, grid.HeightAt(GeoPoint.FromDegrees(46.25, 7.25))!.Value.Metres);
    }

    [Theory]
    [InlineData("ncols 2 nrows 2 xllcorner 7 yllcorner 46 1 2 3 4", "cellsize")]
    [InlineData("ncols 2 nrows 2 xllcorner 7 yllcorner 46 cellsize 0.5 1 2 3", "cut off")]
    [InlineData("ncols 2 nrows 2 xllcorner 7 yllcorner 46 cellsize 0.5 1 2 3 4 5", "more heights")]
    [InlineData("ncols 2 nrows 2 xllcorner 7 yllcorner 46 cellsize 0.5 1 2 3 4,5", "4,5")]
    [InlineData("ncols 2 nrows 2 xllcorner 7 yllcorner 46 cellsize 0.5 1 2 3 nan", "nan")]
    [InlineData("ncols 2 nrows 2 xllcorner 7 yllcorner 46 cellsize -0.5 1 2 3 4", "latitudeStepDeg")]
    [InlineData("ncols 2.5 nrows 2 xllcorner 7 yllcorner 46 cellsize 0.5 1 2 3 4", "whole numbers")]
    [InlineData("ncols 200000 nrows 200000 xllcorner 7 yllcorner 46 cellsize 0.0001 1 2 3 4", "do not fit")]
    [InlineData("ncols 2 nrows 2 xllcorner 350000 yllcorner 5100000 cellsize 30 1 2 3 4", "not in degrees")]
    [InlineData("ncols 2 ncols 2 nrows 2 xllcorner 7 yllcorner 46 cellsize 0.5 1 2 3 4", "twice")]
    [InlineData("ncols 2 nrows 2 colour 3 xllcorner 7 yllcorner 46 cellsize 0.5 1 2 3 4", "colour")]
    [InlineData("", "ncols")]
    [InlineData("II*\0 binary", "a number such as")]
    public void A_wrong_ascii_grid_is_refused_with_what_is_wrong(string text, string says)
    {
        var refusal = Assert.Throws<BadInputException>(() => Ascii(text));
        Assert.Contains(says, refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Neighbouring_tiles_become_one_grid_without_a_seam()
    {
        var west = Grids.Square(46, 7, (row, column) => row + column, size: 101);
        var east = Grids.Square(46, 8, (row, column) => row + column + 100, size: 101);

        var joined = GridMosaic.Join([east, west]);

        Assert.Equal(201, joined.Posts.Columns);
        Assert.Equal(101, joined.Posts.Rows);
        Assert.Equal(0, joined.Relief.Holes);
        foreach (var longitude in (double[])[7.995, 8, 8.005])
            Assert.Equal(50 + ((longitude - 7) * 100), joined.HeightAt(GeoPoint.FromDegrees(46.5, longitude))!.Value.Metres, 3);
    }

    [Fact]
    public void Tiles_on_both_sides_of_the_date_line_are_neighbours()
    {
        var joined = GridMosaic.Join([Grids.Square(-18, 179, (_, _) => 1, size: 11), Grids.Square(-18, -180, (_, _) => 1, size: 11)]);
        Assert.Equal(21, joined.Posts.Columns);
        Assert.Equal(1, joined.HeightAt(GeoPoint.FromDegrees(-17.5, -179.5))!.Value.Metres);
        Assert.Equal(1, joined.HeightAt(GeoPoint.FromDegrees(-17.5, 179.5))!.Value.Metres);
    }

    [Fact]
    public void Tiles_that_disagree_are_refused()
    {
        var tile = Grids.Square(46, 7, (_, _) => 0, size: 101);
        Assert.Contains("disagrees", Assert.Throws<BadInputException>(() => GridMosaic.Join([tile, Grids.Square(46, 8, (_, _) => 51, size: 101)])).Message, StringComparison.Ordinal);
        Assert.Contains("at least one", Assert.Throws<BadInputException>(() => GridMosaic.Join([])).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_tiles_overlap_they_must_agree_within_fifty_metres()
    {
        ElevationGrid Tile(double west, double height) =>
            new(new GridPosts(50, 60, 46.5, west, 0.001, 0.001), [.. Enumerable.Range(0, 3000).Select(i => (float)(i % 60 == 45 && i / 60 == 30 ? height : 100))], "made for a test");

        // The second tile begins 40 columns east of the first; its own post at column 5 lies on the first's 45th.
        var grid = GridMosaic.Join([Tile(7, 100), Shifted(149)]);
        Assert.Equal((100, 50, 0), (grid.Posts.Columns, grid.Posts.Rows, grid.Relief.Holes));
        var refusal = Assert.Throws<BadInputException>(() => GridMosaic.Join([Tile(7, 100), Shifted(151)]));
        Assert.Contains("disagrees with another tile by 51 m at 46.47", refusal.Message, StringComparison.Ordinal);

        ElevationGrid Shifted(double height) =>
            new(new GridPosts(50, 60, 46.5, 7.04, 0.001, 0.001), [.. Enumerable.Range(0, 3000).Select(i => (float)(i == (30 * 60) + 5 ? height : 100))], "its neighbour");
    }

    private static ElevationGrid Ascii(string text) => GridFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "made.asc");
}
