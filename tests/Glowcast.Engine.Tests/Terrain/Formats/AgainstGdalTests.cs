using System.Globalization;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public sealed class AgainstGdalTests : IDisposable
{
    private const int Rows = 90;
    private const int Columns = 100;

    // Of the layouts of each byte order, every fifth is shown to GDAL, which is slow to start; five
    // shares no factor with their counts, so that each sample, compression and predictor is among them.
    private static readonly int Every = Environment.GetEnvironmentVariable("GLOWCAST_EVERY_LAYOUT") is null ? 5 : 1;

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("glowcast-grids");

    public void Dispose() => folder.Delete(recursive: true);

    public static TheoryData<string> Written() =>
    [
        "-co ENDIANNESS=BIG", "-co ENDIANNESS=BIG -co TILED=YES -co BLOCKXSIZE=32 -co BLOCKYSIZE=16", "-co COMPRESS=PACKBITS", "-co BIGTIFF=YES -co TILED=YES",
        "-co COMPRESS=LZW -co PREDICTOR=2", "-co COMPRESS=LZW -co PREDICTOR=2 -co ENDIANNESS=BIG", "-co COMPRESS=LZW -co PREDICTOR=2 -co ENDIANNESS=BIG -co TILED=YES",
        "-co COMPRESS=DEFLATE -co PREDICTOR=2 -co BLOCKYSIZE=7", "-co COMPRESS=DEFLATE -co PREDICTOR=2 -co ENDIANNESS=BIG", "-ot UInt16 -co COMPRESS=LZW -co PREDICTOR=2",
        "-ot Int32 -co COMPRESS=DEFLATE -co PREDICTOR=2 -co ENDIANNESS=BIG", "-ot UInt32 -co COMPRESS=LZW -co PREDICTOR=2 -co TILED=YES",
        // Predictor 3 in big-endian files is left out: GDAL 3.6.2 writes it so that it cannot read it back itself.
        "-ot Float32 -co COMPRESS=DEFLATE -co PREDICTOR=3", "-ot Float32 -co COMPRESS=LZW -co PREDICTOR=2 -co ENDIANNESS=BIG",
        "-ot Float32 -co COMPRESS=LZW -co PREDICTOR=3 -co TILED=YES -co BLOCKXSIZE=16 -co BLOCKYSIZE=16", "-ot Float64 -co COMPRESS=DEFLATE -co PREDICTOR=3",
        "-ot Float64 -co ENDIANNESS=BIG", "-mo AREA_OR_POINT=Point", "-of AAIGrid",
    ];

    [TheoryNeeds<Gdal>]
    [MemberData(nameof(Written))]
    public void What_it_writes_is_read_as_it_was(string options)
    {
        var name = options.Contains("AAIGrid", StringComparison.Ordinal) ? "made.asc" : "made.tif";
        var path = Path.Combine(folder.FullName, name);
        string[] window = ["-q", "-srcwin", "150", "120", $"{Columns}", $"{Rows}"];
        Gdal.Run("gdal_translate", "", [.. window, .. options.Split(' '), ReferenceData.Locate("terrain/jacksboro_3s.tif"), path]);

        using var stream = File.OpenRead(path);
        var grid = GridFile.Read(stream, name);

        Assert.Equal((Rows, Columns), (grid.Posts.Rows, grid.Posts.Columns));
        for (var row = 0; row < Rows; row++) Assert.Equal(RealGround.Grid.Row(120 + row).Slice(150, Columns), grid.Row(row));
        var (there, here) = (RealGround.Grid.Posts.ToPoint(150, 120), grid.Posts.ToPoint(0, 0));
        Assert.Equal(there.LatitudeDeg, here.LatitudeDeg, 1e-9);
        Assert.Equal(there.LongitudeDeg, here.LongitudeDeg, 1e-9);
    }

    [TheoryNeeds<Gdal>]
    [InlineData("SRTMHGT", "N36W085.hgt")]
    [InlineData("DTED", "made.dt1")]
    public void Whole_cells_of_a_degree_are_read_as_it_wrote_them(string format, string name)
    {
        // The small grid on the cell it lies in, the rest without heights.
        var cell = Path.Combine(folder.FullName, "cell.tif");
        var path = Path.Combine(folder.FullName, name);
        const string HalfPost = "0.000416666666666667";
        string[] place = ["-a_nodata", "-32768", "-projwin", "-85." + HalfPost[2..], "37." + HalfPost[2..], "-83.9995833333333333", "35.9995833333333333"];
        Gdal.Run("gdal_translate", "", ["-q", .. place, ReferenceData.Locate("terrain/jacksboro_3s.tif"), cell]);
        Gdal.Run("gdal_translate", "", "-q", "-of", format, cell, path);

        using var stream = File.OpenRead(path);
        var grid = GridFile.Read(stream, name);

        Assert.Equal((1201, 1201, (1201 * 1201) - (344 * 403)), (grid.Posts.Rows, grid.Posts.Columns, grid.Relief.Holes));
        var (x, y) = grid.Posts.ToCells(RealGround.Grid.Posts.ToPoint(0, 0));
        for (var row = 0; row < RealGround.Grid.Posts.Rows; row++)
            Assert.Equal(RealGround.Grid.Row(row), grid.Row((int)Math.Round(y) + row).Slice((int)Math.Round(x), RealGround.Grid.Posts.Columns));
        Assert.Equal("EGM96", grid.VerticalDatum);
    }

    [TheoryNeeds<Gdal>]
    [InlineData("l")]
    [InlineData("b")]
    [InlineData("l8")]
    public void It_finds_the_same_in_every_layout_that_the_tests_make(string order)
    {
        var posts = string.Concat(Enumerable.Range(0, MadeTiff.Rows * MadeTiff.Columns).Select(i => $"{i % MadeTiff.Columns} {i / MadeTiff.Columns}\n"));
        foreach (var layout in GeoTiffTests.EveryLayout().Select(row => row.Data).Where(layout => layout.Item1 == order).Where((_, i) => i % Every == 0))
        {
            var made = GeoTiffTests.Made(layout.Item1, layout.Item2, layout.Item3, layout.Item4, layout.Item5);
            var path = Path.Combine(folder.FullName, "made.tif");
            using (var file = File.Create(path)) made.Write().CopyTo(file);

            var theirs = Gdal.Run("gdallocationinfo", posts, "-valonly", path).Split('\n', StringSplitOptions.RemoveEmptyEntries);

            using var stream = File.OpenRead(path);
            var ours = GridFile.Read(stream, "made.tif");
            for (var i = 0; i < theirs.Length; i++)
            {
                var height = ours.Row(i / MadeTiff.Columns)[i % MadeTiff.Columns];
                if (!float.IsNaN(height)) Assert.Equal(double.Parse(theirs[i], CultureInfo.InvariantCulture), height, 1e-6);
            }
            Assert.Equal(MadeTiff.Rows * MadeTiff.Columns, theirs.Length);
        }
    }
}
