using System.Globalization;
using System.IO.Compression;
using System.Text;
using BitMiracle.LibTiff.Classic;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>Files of every format, damaged at random: each is read or refused, and neither takes more memory than a sound
/// file of that size could ask for.</summary>
/// <remarks>The environment variable GLOWCAST_DAMAGED_FILES sets how many a format; without it a few hundred.</remarks>
public class DamagedFileTests
{
    private const int UsualCount = 300;
    private const long MostBytesAFile = 256L << 20;

    private static int Count =>
        int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_DAMAGED_FILES"), CultureInfo.InvariantCulture, out var count) ? count : UsualCount;

    [Theory]
    [InlineData("made.tif")]
    [InlineData("made.dt1")]
    [InlineData("made.asc")]
    [InlineData("N46E007.hgt")]
    [InlineData("made.zip")]
    public void A_damaged_file_is_read_or_refused(string name)
    {
        var sound = Sound(name);
        Assert.All(sound, bytes => Assert.NotNull(GridFile.Read(new MemoryStream(bytes), name)));
        var (read, refused, greediest) = (0, 0, 0L);
        var damaged = new DamagedCopy(sound.Max(bytes => bytes.Length));
        for (var seed = 0; seed < Count; seed++)
        {
            var stream = damaged.Of(sound[seed % sound.Length], new Random(seed));
            var before = GC.GetAllocatedBytesForCurrentThread();
            try
            {
                GridFile.Read(stream, name);
                read++;
            }
            catch (BadInputException)
            {
                refused++;
            }
            catch (Exception fault)
            {
                Assert.Fail($"seed {seed} of {name}: {fault}");
            }
            greediest = Math.Max(greediest, GC.GetAllocatedBytesForCurrentThread() - before);
        }
        TestContext.Current.TestOutputHelper?.WriteLine($"{name}: {read} read, {refused} refused, at most {greediest >> 20} MiB for one");
        Assert.True(refused > 0);
        Assert.True(greediest < MostBytesAFile, $"one file took {greediest >> 20} MiB");
    }

    [Theory]
    [InlineData(0)]
    [InlineData(8)]
    [InlineData(1000)]
    public void A_cut_off_geotiff_is_refused(int length)
    {
        foreach (var whole in Sound("made.tif"))
            Assert.Throws<BadInputException>(() => GridFile.Read(new MemoryStream(whole[..Math.Min(length, whole.Length / 2)]), "made.tif"));
    }

    [Fact]
    public void A_small_file_that_claims_a_great_grid_is_refused_before_memory_is_taken()
    {
        var bytes = new MadeTiff { Compression = Compression.DEFLATE }.Write().ToArray();
        var directory = BitConverter.ToInt32(bytes, 4);
        for (var entry = directory + 2; BitConverter.ToUInt16(bytes, entry) <= 257; entry += 12)
        {
            BitConverter.GetBytes((ushort)4).CopyTo(bytes, entry + 2);
            BitConverter.GetBytes(100_000).CopyTo(bytes, entry + 8);
        }
        var before = GC.GetAllocatedBytesForCurrentThread();
        var refusal = Assert.Throws<BadInputException>(() => GridFile.Read(new MemoryStream(bytes), "made.tif"));
        Assert.Contains("Claims 100000 × 100000", refusal.Message, StringComparison.Ordinal);
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 1 << 20);
    }

    [Fact]
    public void Image_directories_in_a_circle_are_refused()
    {
        // Two directories that are said to be overviews and name one another.
        byte[] bytes = [(byte)'I', (byte)'I', 42, 0, 8, 0, 0, 0, .. Overview(next: 26), .. Overview(next: 8)];
        var refusal = Assert.Throws<BadInputException>(() => GridFile.Read(new MemoryStream(bytes), "made.tif"));
        Assert.Contains("circle", refusal.Message, StringComparison.Ordinal);

        static byte[] Overview(int next) => [1, 0, 254, 0, 4, 0, 1, 0, 0, 0, 1, 0, 0, 0, .. BitConverter.GetBytes(next)];
    }

    private static byte[][] Sound(string name) => name switch
    {
        "made.tif" =>
        [
            new MadeTiff().Write().ToArray(),
            new MadeTiff { ByteOrder = "b", Tiled = true, Compression = Compression.LZW }.Write().ToArray(),
            new MadeTiff { Compression = Compression.DEFLATE, Predictor = Predictor.HORIZONTAL, Metadata = "<GDALMetadata><Item role=\"unittype\">m</Item></GDALMetadata>" }.Write().ToArray(),
            new MadeTiff { ByteOrder = "l8", Tiled = true, Format = SampleFormat.IEEEFP, Bits = 32, Compression = Compression.DEFLATE, Predictor = Predictor.FLOATINGPOINT }.Write().ToArray(),
            new MadeTiff { Compression = Compression.PACKBITS, PixelScale = null, Matrix = [20, 0, 0, 600_000, 0, 20, 0, 5_100_000, 0, 0, 0, 0, 0, 0, 0, 1] }.Write().ToArray(),
            new MadeTiff
            {
                Compression = Compression.LZW,
                Keys = MadeTiff.KeysOf([(1024, 1), (2048, 4258), (3072, 32767), (3075, 8)], 3085, 3084, 3078, 3079, 3086, 3087),
                KeyNumbers = [46.5, 3, 49, 44, 700_000, 6_600_000],
                Tiepoint = [0, 0, 0, 800_000, 6_500_000, 0],
            }.Write().ToArray(),
        ],
        "made.dt1" => [MadeDted.Write((row, column) => MadeDted.SignAndMagnitude(row - column))],
        "made.asc" => [Encoding.ASCII.GetBytes("ncols 4\nnrows 3\nxllcorner 7.5\nyllcorner 46\ncellsize 0.01\nNODATA_value -9999\n1 2 3 4\n5 6 -9999 8\n9 10.5 11 12\n")],
        "made.zip" => [Zipped(new byte[2 * 1201 * 1201])],
        _ => [new byte[2 * 1201 * 1201]],
    };

    private static byte[] Zipped(byte[] tile)
    {
        var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        using (var entry = archive.CreateEntry("N46E007.hgt", CompressionLevel.Fastest).Open())
            entry.Write(tile);
        return stream.ToArray();
    }

    /// <summary>A few bytes changed, most of them near one another; now and then cut off, lengthened, or with a part repeated.</summary>
    /// <remarks>Every copy is made in one piece of memory: a tile of its own for each would keep the collector busier than the readers.</remarks>
    private sealed class DamagedCopy(int longest)
    {
        private readonly byte[] bytes = new byte[(2 * longest) + 100];

        /// <returns>Good until the next is made.</returns>
        public MemoryStream Of(byte[] sound, Random random)
        {
            sound.CopyTo(bytes, 0);
            var around = random.Next(sound.Length);
            for (var change = random.Next(8); change >= 0; change--)
            {
                var at = random.Next(3) == 0 ? random.Next(sound.Length) : Math.Min(around + random.Next(16), sound.Length - 1);
                bytes[at] = random.Next(3) switch { 0 => (byte)random.Next(256), 1 => (byte)(bytes[at] ^ (1 << random.Next(8))), _ => (byte)(random.Next(2) * 255) };
            }
            return new MemoryStream(bytes, 0, LengthOf(sound.Length, random), writable: false);
        }

        private int LengthOf(int sound, Random random)
        {
            switch (random.Next(10))
            {
                case 0: return random.Next(sound);
                case 1:
                    var more = random.Next(100);
                    bytes.AsSpan(sound, more).Clear();
                    return sound + more;
                case 2:
                    var from = random.Next(sound);
                    var again = bytes.AsSpan((from / 2)..sound).ToArray();
                    again.CopyTo(bytes, from);
                    return from + again.Length;
                default: return sound;
            }
        }
    }
}
