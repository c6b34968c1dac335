using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using BitMiracle.LibTiff.Classic;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class GridReadingTests
{
    [Theory]
    [InlineData("N46E007.hgt")]
    [InlineData("tile.zip")]
    [InlineData("made.asc")]
    [InlineData("made.dt1")]
    [InlineData("strips.tif")]
    [InlineData("tiles.tif")]
    [InlineData("southup.tif")]
    public void The_ground_around_a_place_is_that_part_of_the_whole(string name)
    {
        var bytes = Made(name);
        var whole = GridFile.Read(new MemoryStream(bytes), name);
        var (column, row) = (2 * whole.Posts.Columns / 3, whole.Posts.Rows / 2);
        var place = whole.Posts.ToPoint(column, row);
        var reach = whole.Posts.CellSize * 6.3;

        var part = GridMosaic.Read([GridFile.Open(new MemoryStream(bytes), name)], new GridReading { Around = place, Within = reach });

        Assert.False(whole.IsCut);
        Assert.True(part.IsCut);
        Assert.Equal(13, part.Posts.Rows);
        Assert.InRange(part.Posts.Columns, 13, whole.Posts.Columns - 1);
        var (x, y) = part.Posts.ToCells(place);
        for (var r = 0; r < part.Posts.Rows; r++)
            for (var c = 0; c < part.Posts.Columns; c++)
                Assert.Equal(whole.Row(row + r - (int)Math.Round(y))[column + c - (int)Math.Round(x)], part.Row(r)[c]);
        Assert.Equal(whole.VerticalDatum, part.VerticalDatum);
    }

    [Fact]
    public void Of_a_grid_larger_than_memory_only_the_window_is_read()
    {
        // 40,000 × 40,000 heights take 6.4 GB; one tile of 512 × 512 is there, the rest was never written.
        using var stream = new HugeTiff(tileAcross: 30, tileDown: 41).Write();
        var utm = MapProjection.Utm(32, isNorth: true, Spheroid.Wgs84);
        var (latitude, longitude) = utm.FromPlane(300_005 + (10 * ((30 * 512) + 100)), 5_399_995 - (10 * ((41 * 512) + 200)));
        var place = GeoPoint.FromDegrees(latitude, longitude);
        var before = GC.GetAllocatedBytesForCurrentThread();

        var grid = GridMosaic.Read([GridFile.Open(stream, "huge.tif")], new GridReading { Around = place, Within = Length.FromKilometres(3) });

        Assert.Equal(601, grid.Posts.Rows);
        // A column is 10 m on the map, some millimetres more on the ground.
        Assert.Equal(599, grid.Posts.Columns);
        Assert.Equal(HugeTiff.Height(200, 100), grid.HeightAt(place)!.Value.Metres, 0.001);
        Assert.True(grid.Relief.Holes > 0);
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 20_000_000);
    }

    [Fact]
    public void A_grid_larger_than_memory_is_refused_where_all_of_it_is_wanted()
    {
        using var stream = new HugeTiff(tileAcross: 30, tileDown: 41).Write();
        var refusal = Assert.Throws<BadInputException>(() => GridFile.Read(stream, "huge.tif"));
        Assert.Contains("40000 × 40000 posts; at most 400000000", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_damaged_tile_is_named()
    {
        var sound = Made("made.dt1");
        var damaged = sound.ToArray();
        damaged[4000] ^= 1;
        var refusal = Assert.Throws<BadInputException>(() => GridMosaic.Read(
            [.. ((byte[][])[damaged, sound, damaged]).Select((bytes, i) => GridFile.Open(new MemoryStream(bytes), $"tile{i}.dt1"))]));
        Assert.Equal(["tile0.dt1", "tile2.dt1"], refusal.Faults.Select(fault => fault.Field));
    }

    [Fact]
    public void Of_a_zipped_tile_no_more_is_unfolded_than_it_says()
    {
        var zip = Zipped(new byte[200_000_000]);
        // The length in the central directory (APPNOTE 4.3.12, offset 24) tells of a 3″ tile.
        var directory = zip.AsSpan().LastIndexOf("PK\u0001\u0002"u8);
        BinaryPrimitives.WriteInt32LittleEndian(zip.AsSpan(directory + 24), 2 * 1201 * 1201);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var refusal = Assert.Throws<BadInputException>(() => GridFile.Read(new MemoryStream(zip), "tile.zip"));
        Assert.Contains("damaged", refusal.Message, StringComparison.Ordinal);
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 10_000_000);
    }

    private static byte[] Made(string name) => name switch
    {
        "tile.zip" => Zipped(Tile()),
        "made.asc" => Encoding.ASCII.GetBytes("ncols 40\nnrows 30\nxllcenter 7\nyllcenter 46\ncellsize 0.001\n"
            + string.Join(' ', Enumerable.Range(0, 1200).Select(i => i % 37 == 0 ? -9999 : i))),
        "made.dt1" => MadeDted.Write((row, column) => MadeDted.SignAndMagnitude((7 * row) - (3 * column))),
        "strips.tif" => new MadeTiff { Compression = Compression.LZW }.Write().ToArray(),
        "tiles.tif" => new MadeTiff { Tiled = true, Compression = Compression.DEFLATE }.Write().ToArray(),
        "southup.tif" => new MadeTiff { PixelScale = null, Tiepoint = null, Matrix = [20, 0, 0, 600_000, 0, 25, 0, 5_100_000, 0, 0, 0, 0, 0, 0, 0, 1] }.Write().ToArray(),
        _ => Tile(),
    };

    private static byte[] Tile()
    {
        var tile = new byte[2 * 1201 * 1201];
        for (var i = 0; i < 1201 * 1201; i++)
            BinaryPrimitives.WriteInt16BigEndian(tile.AsSpan(2 * i), (short)(i % 101 == 0 ? -32768 : i % 4001));
        return tile;
    }

    private static byte[] Zipped(byte[] tile)
    {
        var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        using (var entry = archive.CreateEntry("N46E007.hgt", CompressionLevel.Fastest).Open())
            entry.Write(tile);
        return stream.ToArray();
    }
}
