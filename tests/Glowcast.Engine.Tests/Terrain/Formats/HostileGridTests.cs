using System.Buffers.Binary;
using System.IO.Compression;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>Small files made to cost much, and files damaged where no header shows it. Allocated memory stands for the work, since it
/// does not depend on how busy the machine is.</summary>
public class HostileGridTests
{
    private const int FewBytes = 16 << 20;

    [Theory]
    [InlineData(1_200_000, "bytes of text")]
    [InlineData(300_000, "deeper than")]
    [InlineData(30, "deeper than")]
    public void Notes_nested_without_end_are_refused(int depth, string says) =>
        Refused(says, new MadeTiff { Metadata = "<GDALMetadata>" + string.Concat(Enumerable.Repeat("<a>", depth)) });

    [Fact]
    public void Notes_that_name_themselves_are_refused() => Refused(
        "damaged", new MadeTiff { Metadata = "<!DOCTYPE a [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;\">]><GDALMetadata><Item role=\"unittype\">&b;</Item></GDALMetadata>" });

    [Fact]
    public void Notes_without_number_are_refused() => Refused("more than", new MadeTiff { Metadata = $"<GDALMetadata>{string.Concat(Enumerable.Repeat("<Item/>", 20_000))}</GDALMetadata>" });

    [Theory]
    [InlineData(324)] // where tiles lie
    [InlineData(325)] // how long they are
    [InlineData(34735)] // keys
    [InlineData(33550)] // pixel scale
    [InlineData(65000)] // of nobody
    public void A_tag_counted_without_end_is_refused_before_it_is_read(int tag)
    {
        var bytes = Retagged(new MadeTiff { Tiled = true }.Write().ToArray(), tag, count: 10_000_000);
        Array.Resize(ref bytes, 100_000_000);
        Refused("", bytes);
    }

    [Fact]
    public void Tiles_without_number_are_refused()
    {
        // 100,000 × 100,000 posts in tiles of 16 × 16 need lists of 39 million tiles.
        var bytes = new MadeTiff { Tiled = true }.Write().ToArray();
        foreach (var (tag, value) in new[] { (256, 100_000), (257, 100_000), (322, 16), (323, 16) }) bytes = Rewritten(bytes, tag, value);
        Array.Resize(ref bytes, 20_000_000);
        Refused("larger ones", bytes);
    }

    [Fact]
    public void What_reading_will_cost_is_known_before()
    {
        using var huge = new HugeTiff(tileAcross: 30, tileDown: 41).Write();
        var before = GC.GetAllocatedBytesForCurrentThread();
        var source = GridFile.Open(huge, "huge.tif");
        Assert.Equal((40_000, 40_000), (source.Posts.Rows, source.Posts.Columns));
        Assert.InRange(source.ReadingBytes, 2 * 2 * 512 * 512, 10_000_000);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, FewBytes);
    }

    [Fact]
    public void Of_a_zipped_tile_no_flipped_bit_changes_a_height()
    {
        var tile = new byte[2 * 1201 * 1201];
        for (var i = 0; i < 1201 * 1201; i++) BinaryPrimitives.WriteInt16BigEndian(tile.AsSpan(2 * i), (short)(800 + (i % 1201 / 3)));
        var zip = Zipped(tile);
        var sound = GridFile.Read(new MemoryStream(zip), "tile.zip");
        var (random, refused) = (new Random(7), 0);
        for (var flip = 0; flip < 240; flip++)
        {
            var damaged = zip.ToArray();
            // The headers at both ends as often as what is packed between them.
            var at = (flip % 3) switch { 0 => random.Next(60), 1 => damaged.Length - 1 - random.Next(120), _ => random.Next(damaged.Length) };
            damaged[at] ^= (byte)(1 << random.Next(8));
            try
            {
                var grid = GridFile.Read(new MemoryStream(damaged), "tile.zip");
                Assert.Equal(sound.Posts.SouthDeg, grid.Posts.SouthDeg);
                Assert.Equal(sound.Posts.WestDeg, grid.Posts.WestDeg);
                for (var row = 0; row < 1201; row++) Assert.True(sound.Row(row).SequenceEqual(grid.Row(row)), $"bit of byte {at}");
            }
            catch (BadInputException)
            {
                refused++;
            }
        }
        Assert.InRange(refused, 80, 240);
    }

    private static void Refused(string says, MadeTiff made) => Refused(says, made.Write().ToArray());

    private static void Refused(string says, byte[] bytes)
    {
        using var stream = new MemoryStream(bytes, writable: false);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var refusal = Assert.Throws<BadInputException>(() => GridFile.Read(stream, "made.tif"));
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, FewBytes);
        Assert.Contains(says, refusal.Message, StringComparison.Ordinal);
    }

    private static byte[] Retagged(byte[] tiff, int tag, int count)
    {
        var entry = EntryOf(tiff, tag == 65000 ? 262 : tag);
        Assert.True(entry >= 0);
        if (tag == 65000) BinaryPrimitives.WriteUInt16LittleEndian(tiff.AsSpan(entry), 65000);
        BinaryPrimitives.WriteInt32LittleEndian(tiff.AsSpan(entry + 4), count);
        if (tag == 65000) BinaryPrimitives.WriteInt32LittleEndian(tiff.AsSpan(entry + 8), 8);
        return tiff;
    }

    /// <summary>Two hundred posts of one net a degree apart, and of two nets.</summary>
    [Theory]
    [InlineData(0.0001, 0.0001)]
    [InlineData(0.0001, 0.00011)]
    public void Small_grids_far_apart_do_not_become_a_great_one(double stepDeg, double otherStepDeg)
    {
        var far = new[] { Level(46, 7, stepDeg, stepDeg), Level(47, 8, otherStepDeg, otherStepDeg) };
        var refusal = Assert.Throws<BadInputException>(() => GridMosaic.Join(far, new GridReading { MostPosts = 50_000_000 }));
        Assert.Contains("posts; at most 50000000 can be held", refusal.Message, StringComparison.Ordinal);
    }

    /// <summary>A net is called finer by its rows; one with rows far apart may have columns without end.</summary>
    [Fact]
    public void A_coarser_net_of_very_many_columns_is_refused()
    {
        var nets = new[] { Level(46, 7, 0.01, 0.1), Level(46.2, 7.1, 0.02, 1e-7), Level(46.5, 7.6, 0.02, 1e-7) };
        var refusal = Assert.Throws<BadInputException>(() => GridMosaic.Join(nets, new GridReading { MostPosts = 1_000_000 }));
        Assert.Contains("as far apart both ways", refusal.Message, StringComparison.Ordinal);
    }

    private static ElevationGrid Level(double northDeg, double westDeg, double latitudeStepDeg, double longitudeStepDeg) =>
        new(new GridPosts(10, 10, northDeg, westDeg, latitudeStepDeg, longitudeStepDeg), new float[100], "level");

    private static byte[] Rewritten(byte[] tiff, int tag, int value)
    {
        var entry = EntryOf(tiff, tag);
        BinaryPrimitives.WriteUInt16LittleEndian(tiff.AsSpan(entry + 2), 4);
        BinaryPrimitives.WriteInt32LittleEndian(tiff.AsSpan(entry + 8), value);
        return tiff;
    }

    private static int EntryOf(byte[] tiff, int tag)
    {
        var directory = BinaryPrimitives.ReadInt32LittleEndian(tiff.AsSpan(4));
        for (var entry = 0; entry < BinaryPrimitives.ReadUInt16LittleEndian(tiff.AsSpan(directory)); entry++)
        {
            var at = directory + 2 + (12 * entry);
            if (BinaryPrimitives.ReadUInt16LittleEndian(tiff.AsSpan(at)) == tag) return at;
        }
        return -1;
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
