using System.IO.Compression;
using System.Text;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class DtedAndZipTests
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Dted_runs_from_south_to_north_whichever_way_negative_heights_are_written(bool bySign)
    {
        // −7 m at the south-west corner, a null in row 4 from the south, column 2 from the west.
        static int Height(int row, int column) => row == 0 && column == 0 ? -7 : 100 + (10 * row) + column;
        var bytes = MadeDted.Write((row, column) => (row, column) == (4, 2)
            ? bySign ? MadeDted.SignAndMagnitude(-32767) : MadeDted.TwosComplement(-32767)
            : bySign ? MadeDted.SignAndMagnitude(Height(row, column)) : MadeDted.TwosComplement(Height(row, column)));

        var grid = GridFile.Read(new MemoryStream(bytes), "made.dt0");

        Assert.Equal((MadeDted.Rows, MadeDted.Columns, 1), (grid.Posts.Rows, grid.Posts.Columns, grid.Relief.Holes));
        Assert.Equal(-7, grid.HeightAt(GeoPoint.FromDegrees(46, 7))!.Value.Metres);
        Assert.Equal(100 + 300 + 20, grid.HeightAt(GeoPoint.FromDegrees(47, 8))!.Value.Metres, 1e-6);
        Assert.Equal(100 + 300, grid.HeightAt(GeoPoint.FromDegrees(47, 7))!.Value.Metres, 1e-6);
        Assert.Equal("EGM96", grid.VerticalDatum);
    }

    [Fact]
    public void Dted_west_and_south_are_negative()
    {
        var posts = GridFile.Read(new MemoryStream(MadeDted.Write((_, _) => 5, origin: "0713000W0330000S")), "made.DT1").Posts;
        Assert.Equal(-33, posts.SouthDeg, 1e-9);
        Assert.Equal(-71.5, posts.WestDeg, 1e-9);
    }

    [Fact]
    public void A_damaged_dted_is_refused_with_what_is_wrong()
    {
        var sound = MadeDted.Write((_, _) => 100);
        Refused("checksum", Changed(3428 + 20, 0x77));
        Refused("does not begin with AA", Changed(3428, 0));
        Refused("says that it is column", Changed(3428 + 5, 3));
        Refused("cut off", sound[..^1]);
        Refused("UHL1", sound[..3000]);
        Refused("origin", Changed(11, (byte)'Q'));
        Refused("where a number must stand", Changed(48, (byte)'x'));
        Refused("WGS72", MadeDted.Write((_, _) => 100, "WGS72"));
        Refused("heights lie between", MadeDted.Write((_, _) => 20_000));

        byte[] Changed(int at, byte to)
        {
            var bytes = sound.ToArray();
            bytes[at] = to;
            return bytes;
        }

        static void Refused(string says, byte[] bytes)
        {
            var refusal = Assert.Throws<BadInputException>(() => GridFile.Read(new MemoryStream(bytes), "made.dt2"));
            Assert.Contains(says, refusal.Message, StringComparison.Ordinal);
        }
    }

    // MIL-PRF-89020B: the codes are MSL and E96, and each elevation is one "as determined by the Earth Gravity Model (EGM) 1996".
    [Theory]
    [InlineData("E96", "EGM96")]
    [InlineData("MSL", "EGM96")]
    [InlineData("NAV", "NAV")]
    [InlineData("   ", null)]
    public void Dted_heights_count_from_what_the_file_says(string code, string? datum) =>
        Assert.Equal(datum, GridFile.Read(new MemoryStream(MadeDted.Write((_, _) => 5, verticalDatum: code)), "made.dt1").VerticalDatum);

    [Fact]
    public void A_zipped_tile_is_read_by_its_entrys_name_alone()
    {
        var tile = new byte[1201 * 1201 * 2];
        tile[1] = 77;
        var grid = GridFile.Read(Zip(("../../folder/S33W071.hgt", tile)), "download.zip");
        Assert.Equal(77, grid.HeightAt(GeoPoint.FromDegrees(-32, -71))!.Value.Metres);
    }

    [Fact]
    public void A_zip_that_is_no_single_tile_is_refused()
    {
        var tile = new byte[1201 * 1201 * 2];
        Refused("Holds 2 files", Zip(("N46E007.hgt", tile), ("N46E008.hgt", tile)));
        Refused("Holds 1 files", Zip(("readme.txt", [1])));
        Refused("Holds 0 files", Zip());
        Refused("N46E007", Zip(("tile.hgt", tile)));
        Refused("2884802", Zip(("N46E007.hgt", tile[..100])));
        Refused("no sound zip", new MemoryStream(Encoding.ASCII.GetBytes("PK but no more")));
        // 300 MB of zeros in 300 kB: no more is unfolded than a tile can have.
        var before = GC.GetTotalAllocatedBytes();
        Refused("2884802", Zip(("N46E007.hgt", new byte[300_000_000])));
        Assert.True(GC.GetTotalAllocatedBytes() - before < 800_000_000);

        static void Refused(string says, Stream zip) =>
            Assert.Contains(says, Assert.Throws<BadInputException>(() => GridFile.Read(zip, "download.zip")).Message, StringComparison.Ordinal);
    }

    private static MemoryStream Zip(params (string Name, byte[] Content)[] entries)
    {
        var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, content) in entries)
            {
                using var entry = archive.CreateEntry(name, CompressionLevel.Fastest).Open();
                entry.Write(content);
            }
        }
        stream.Position = 0;
        return stream;
    }
}
