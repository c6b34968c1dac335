using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public sealed class HeightErrorTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("glowcast-accuracy");

    public void Dispose() => folder.Delete(recursive: true);

    // MIL-PRF-89020B, accuracy record: absolute vertical accuracy and point-to-point vertical accuracy, each for 90 % of heights, whole
    // metres or NA. Of a normal distribution 90 % lie within 1.6449 σ; the difference of two has √2 σ.
    [Theory]
    [InlineData("0030", "0020", 20 / 1.6449 / 1.41421356)]
    [InlineData("0030", "NA  ", 30 / 1.6449)]
    [InlineData("NA  ", "0012", 12 / 1.6449 / 1.41421356)]
    public void Dted_heights_are_off_by_what_the_file_says(string absolute, string difference, double deviationM)
    {
        var error = Read(MadeDted.Write((_, _) => 100, accuracy: (absolute, difference))).HeightError;
        Assert.Equal(HeightErrorSource.Grid, error.Source);
        Assert.Equal(deviationM, error.Size.Metres, 1e-3);
    }

    [Theory]
    [InlineData("NA  ", "NA  ")]
    [InlineData("    ", "    ")]
    [InlineData("0000", "0000")]
    [InlineData("-030", "?020")]
    public void Where_it_says_nothing_the_usual_is_assumed(string absolute, string difference) =>
        Assert.Same(HeightError.Usual, Read(MadeDted.Write((_, _) => 100, accuracy: (absolute, difference))).HeightError);

    [TheoryNeeds<Gdal>]
    [InlineData("0030", "0020")]
    [InlineData("0030", "NA  ")]
    [InlineData("NA  ", "NA  ")]
    public void A_geotiff_made_of_a_dted_file_says_the_same(string absolute, string difference)
    {
        var bytes = MadeDted.Write((_, _) => 100, accuracy: (absolute, difference));
        var (there, here) = (Path.Combine(folder.FullName, "made.dt1"), Path.Combine(folder.FullName, "made.tif"));
        File.WriteAllBytes(there, bytes);
        Gdal.Run("gdal_translate", "", "-q", "-of", "GTiff", there, here);
        using var stream = File.OpenRead(here);
        Assert.Equal(Read(bytes).HeightError, GridFile.Read(stream, "made.tif").HeightError);
    }

    [Fact]
    public void Joined_ground_is_as_uncertain_as_its_worst_part()
    {
        var (good, bad) = (Tile("0070000E0460000N", "0004"), Tile("0080000E0460000N", "0020"));
        Assert.Equal(bad.HeightError, GridMosaic.Join([good, bad]).HeightError);
        Assert.Equal(HeightError.Usual, GridMosaic.Join([good, Tile("0080000E0460000N", "NA  ")]).HeightError);
        Assert.Equal(good.HeightError, GridMosaic.Join([good]).HeightError);
        Assert.Equal(good.HeightError, good.Under(Length.FromMetres(150)).HeightError);

        static ElevationGrid Tile(string origin, string difference) => Read(MadeDted.Write((_, _) => 100, origin: origin, accuracy: ("NA  ", difference)));
    }

    private static ElevationGrid Read(byte[] dted) => GridFile.Read(new MemoryStream(dted), "made.dt1");
}
