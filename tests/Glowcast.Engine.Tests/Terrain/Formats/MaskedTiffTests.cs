using BitMiracle.LibTiff.Classic;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public sealed class MaskedTiffTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("glowcast-grids");

    public void Dispose() => folder.Delete(recursive: true);

    [Theory]
    [InlineData("l", false, 1, Compression.DEFLATE)]
    [InlineData("b", true, 1, Compression.LZW)]
    [InlineData("l", true, 8, Compression.PACKBITS)]
    [InlineData("l8", false, 8, Compression.NONE)]
    public void Where_the_mask_of_a_file_is_zero_there_is_a_hole(string order, bool tiled, int bits, Compression compression)
    {
        static bool IsGround(int row, int column) => (row / 3) + (column / 7) is not (2 or 5) && (row, column) != (0, 0);
        var grid = Read(new MadeTiff { ByteOrder = order, Tiled = tiled, Compression = compression, Mask = IsGround, MaskBits = bits });
        for (var row = 0; row < MadeTiff.Rows; row++)
            for (var column = 0; column < MadeTiff.Columns; column++)
                Assert.Equal(!IsGround(row, column) || (row, column) == (3, 5), float.IsNaN(grid.Row(row)[column]));
    }

    [Fact]
    public void Rows_from_south_to_north_keep_their_mask()
    {
        var grid = Read(new MadeTiff { PixelScale = null, Tiepoint = null, Matrix = [20, 0, 0, 600_000, 0, 25, 0, 5_100_000, 0, 0, 0, 0, 0, 0, 0, 1], Mask = (row, _) => row != 0 });
        Assert.True(float.IsNaN(grid.Row(MadeTiff.Rows - 1)[0]));
        Assert.False(float.IsNaN(grid.Row(0)[0]));
    }

    [Theory]
    [InlineData("one size", 1, 40)]
    [InlineData("16 bits", 16, MadeTiff.Columns)]
    public void A_mask_that_cannot_be_read_refuses_the_file(string says, int bits, int columns)
    {
        var refusal = Assert.Throws<BadInputException>(() => Read(new MadeTiff { Mask = (_, _) => true, MaskBits = bits, MaskColumns = columns }));
        Assert.Contains(says, refusal.Message, StringComparison.Ordinal);
        Assert.Contains("mask", refusal.Message, StringComparison.Ordinal);
    }

    // GDAL 3.6.2 writes the mask, and overviews with masks of their own after it.
    [TheoryNeeds<Gdal>]
    [InlineData("")]
    [InlineData("-co TILED=YES -co BLOCKXSIZE=32 -co BLOCKYSIZE=16 -co COMPRESS=DEFLATE")]
    [InlineData("-co COMPRESS=LZW -co ENDIANNESS=BIG -co BLOCKYSIZE=3")]
    [InlineData("-co BIGTIFF=YES -co COMPRESS=PACKBITS")]
    public void Masks_of_another_writer_are_honoured(string options)
    {
        // The ridge above 800 m has no height.
        var (mask, path) = (Path.Combine(folder.FullName, "mask.asc"), Path.Combine(folder.FullName, "masked.tif"));
        var (rows, columns, posts) = (90, 100, RealGround.Grid.Posts);
        File.WriteAllLines(mask, [$"ncols {columns}", $"nrows {rows}", "xllcorner 0", "yllcorner 0", "cellsize 1", .. Enumerable.Range(0, rows).Select(row => string.Join(' ', RealGround.Grid.Row(120 + row).Slice(150, columns).ToArray().Select(height => height > 600 ? 0 : 255)))]);
        var (heights, both) = (Path.Combine(folder.FullName, "heights.tif"), Path.Combine(folder.FullName, "both.vrt"));
        Gdal.Run("gdal_translate", "", "-q", "-srcwin", "150", "120", $"{columns}", $"{rows}", ReferenceData.Locate("terrain/jacksboro_3s.tif"), heights);
        File.WriteAllText(both, $"""<VRTDataset rasterXSize="{columns}" rasterYSize="{rows}"><SRS>EPSG:4326</SRS><GeoTransform>{FormattableString.Invariant($"{posts.WestDeg}, {1 / 1200.0}, 0, {posts.NorthDeg}, 0, {-1 / 1200.0}")}</GeoTransform><VRTRasterBand dataType="Int16" band="1"><SimpleSource><SourceFilename relativeToVRT="1">heights.tif</SourceFilename><SourceBand>1</SourceBand></SimpleSource></VRTRasterBand><MaskBand><VRTRasterBand dataType="Byte"><SimpleSource><SourceFilename relativeToVRT="1">mask.asc</SourceFilename><SourceBand>1</SourceBand></SimpleSource></VRTRasterBand></MaskBand></VRTDataset>""");
        Gdal.Run("gdal_translate", "", ["-q", "--config", "GDAL_TIFF_INTERNAL_MASK", "YES", .. options.Split(' ', StringSplitOptions.RemoveEmptyEntries), both, path]);
        Gdal.Run("gdaladdo", "", "-q", "--config", "GDAL_TIFF_INTERNAL_MASK", "YES", path, "2", "4");

        using var stream = File.OpenRead(path);
        var grid = GridFile.Read(stream, "masked.tif");

        Assert.InRange(grid.Relief.Holes, 100, (rows * columns) - 100);
        for (var row = 0; row < rows; row++)
            for (var column = 0; column < columns; column++)
            {
                var height = RealGround.Grid.Row(120 + row)[150 + column];
                Assert.Equal(height > 600 ? float.NaN : height, grid.Row(row)[column]);
            }
    }

    private static ElevationGrid Read(MadeTiff made)
    {
        using var stream = made.Write();
        return GridFile.Read(stream, "made.tif");
    }
}
