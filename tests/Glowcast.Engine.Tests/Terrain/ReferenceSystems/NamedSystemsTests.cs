using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class NamedSystemsTests
{
    // Geodetic to plane by PROJ 9.1, whose own copy of the EPSG dataset gives the figures, e.g.
    // echo "6.86 45.83" | gdaltransform -s_srs "+proj=longlat +ellps=GRS80" -t_srs "$(gdalsrsinfo -o proj4 EPSG:2154)" -output_xy
    // (the ellipsoid's own latitudes and longitudes on both sides, without a shift of datum).
    [Theory]
    [InlineData(2154, 45.83, 6.86, 999540.309032602, 6532918.11501454)]
    [InlineData(2180, 49.23, 20.08, 578605.279009961, 151948.83416085)]
    [InlineData(2193, -43.6, 170.14, 1369162.34901713, 5168577.9144588)]
    [InlineData(3005, 50.4, -123.2, 1198936.00907332, 602222.051036006)]
    [InlineData(3006, 67.9, 18.5, 646882.514223017, 7535873.57434867)]
    [InlineData(3034, 47.42, 10.98, 4071528.55930537, 2308361.00447307)]
    [InlineData(3057, 64.02, -16.8, 607557.602280087, 392620.286999348)]
    [InlineData(3067, 69.05, 24.1, 384317.009287839, 7662672.19993433)]
    [InlineData(3111, -36.95, 147.1, 2687003.37868457, 2503485.39815796)]
    [InlineData(3112, -36.45, 148.3, 1280886.85612672, -4173349.16498938)]
    [InlineData(3310, 36.58, -118.29, 152802.231713851, -158286.017700832)]
    [InlineData(3347, 51.4, -116.2, 4561815.66314697, 2011999.63615065)]
    [InlineData(3577, -43.2, 146.7, 1232020.02187873, -4792130.59600492)]
    [InlineData(3763, 40.32, -7.61, 44461.1227129765, 72497.1555746095)]
    [InlineData(3765, 44.4, 15.3, 404410.948825474, 4918477.42118953)]
    [InlineData(3794, 46.38, 13.84, 410768.898728251, 138464.960336088)]
    [InlineData(3978, 51.4, -116.2, -1435726.55801148, 507283.574900502)]
    [InlineData(3979, 60.6, -137.5, -2097145.70157024, 1997162.92765439)]
    [InlineData(4647, 47.42, 10.98, 32649344.4992514, 5253739.36919608)]
    [InlineData(5070, 44.27, -71.3, 1944025.91978342, 2618488.00020997)]
    [InlineData(5650, 47.1, 13.4, 33378587.3560881, 5217518.8374127)]
    [InlineData(6350, 40.25, -105.6, -808171.641438799, 1955841.84225982)]
    [InlineData(32633, 47.1, 13.4, 378587.356089182, 5217518.83753412)]
    [InlineData(25832, 47.42, 10.98, 649344.499251371, 5253739.36919608)]
    [InlineData(26913, 40.25, -105.6, 448971.289276697, 4455678.01245501)]
    [InlineData(6340, 36.58, -118.29, 384589.812680691, 4049056.39087105)]
    [InlineData(2955, 51.4, -116.2, 555651.23388277, 5694611.57325535)]
    [InlineData(28355, -36.95, 147.1, 508903.430595381, 5910669.59828685)]
    [InlineData(7855, -36.95, 147.1, 508903.430595381, 5910669.59828685)]
    public void Numbered_systems_are_those_of_the_EPSG_dataset(int code, double latitude, double longitude, double east, double north)
    {
        var (_, projection) = NamedSystems.OfEpsg(code)!.Value;
        var (e, n) = projection.ToPlane(latitude, longitude);
        Assert.Equal(east, e, 0.001);
        Assert.Equal(north, n, 0.001);
    }

    [Theory]
    [InlineData(3035, "equal area of another kind")]
    [InlineData(31287, "another datum")]
    [InlineData(27700, "another datum")]
    [InlineData(3857, "web mercator")]
    [InlineData(32661, "polar")]
    [InlineData(25839, "no such zone")]
    public void Others_are_not_known(int code, string why) => Assert.True(NamedSystems.OfEpsg(code) is null, why);

    [Fact]
    public void A_file_in_a_numbered_system_is_read()
    {
        using var stream = new MadeTiff { Keys = MadeTiff.KeysOf((1024, 1), (1025, 2), (3072, 2154)), Tiepoint = [0, 0, 0, 999_540.309, 6_532_918.115, 0] }.Write();
        var grid = GridFile.Read(stream, "made.tif");
        Assert.Equal("RGF93 / Lambert-93", grid.Posts.Crs);
        Assert.Equal(45.83, grid.Posts.ToPoint(0, 0).LatitudeDeg, 1e-7);
        Assert.Equal(6.86, grid.Posts.ToPoint(0, 0).LongitudeDeg, 1e-7);
    }

    [Fact]
    public void A_system_that_is_not_known_is_refused_with_what_to_do()
    {
        using var stream = new MadeTiff { Keys = MadeTiff.KeysOf((1024, 1), (3072, 3035)) }.Write();
        var refusal = Assert.Throws<BadInputException>(() => GridFile.Read(stream, "made.tif"));
        Assert.Contains("Is in EPSG:3035", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("Reproject it to longitude and latitude (EPSG:4326)", refusal.Message, StringComparison.Ordinal);
    }
}
