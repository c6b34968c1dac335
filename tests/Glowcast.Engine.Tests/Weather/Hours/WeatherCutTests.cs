using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>What is cut out of files reads back equal, point by point.</summary>
public class WeatherCutTests
{
    [Theory]
    [InlineData("scanning/scan_000")]
    [InlineData("scanning/scan_048")]
    [InlineData("scanning/scan_224")]
    [InlineData("packing/simple_bitmap")]
    [InlineData("packing/spdiff2")]
    [InlineData("packing/spdiff2_missing2")]
    [InlineData("packing/ccsds")]
    [InlineData("packing/png16")]
    [InlineData("packing/ieee32")]
    [InlineData("packing/ieee64")]
    [InlineData("packing/simple_constant_0bits")]
    [InlineData("packing/simple_negative_decimal")]
    public void A_field_cut_out_has_the_values_it_had(string name)
    {
        var field = GribFiles.Fields(GribFiles.Copied($"{name}.grib2")).Single();
        SamePoints(field, [field.Grid.PointAt(3, 2), field.Grid.PointAt(8, 7)]);
    }

    [TheoryNeeds<SharedReference>]
    [InlineData("gfs_2011011012_f120_global_2p5", 46, 0)]
    [InlineData("nam_2018091700_f000_lambert81km", 44, -71)]
    [InlineData("aqm_alaska_polarstereo_ozone", 60, -150)]
    [InlineData("aqm_hawaii_mercator_ozone", 20.5, -157)]
    [InlineData("nae_rotated_t1000_cut", 50, -20)]
    [InlineData("ncep_gaussian_192x96_hgt525", 46, 0)]
    [InlineData("ecmwf_2024010100_0p4_ccsds", 46, 179.9)]
    [InlineData("nbm_2026061600_f001_lambert_altrows_missing", 40, -100)]
    public void A_field_of_a_service_cut_out_has_the_values_it_had(string name, double latitude, double longitude)
    {
        foreach (var field in GribFiles.Fields(GribFiles.Shared($"grib/{name}.grib2")).Take(8))
        {
            var point = GeoPoint.FromDegrees(latitude, longitude);
            if (field.Grid.Locate(point) is not { } index) continue;
            SamePoints(field, [point, field.Grid.PointAt(Math.Min(index.I + 3, field.Grid.Ni - 1), Math.Min(index.J + 2, field.Grid.Nj - 1))]);
        }
    }

    private static void SamePoints(GribField field, IReadOnlyList<GeoPoint> about)
    {
        var cut = GribFiles.Fields(GribSource.InMemory("cut", GribWriter.Cut(field, about)!)).Single();
        Assert.Equal(field.Product with { Process = null }, cut.Product with { Process = null });
        Assert.True(cut.Grid.Points < field.Grid.Points);
        var (before, after) = (field.Values(), cut.Values());
        for (var j = 0; j < cut.Grid.Nj; j++)
        {
            for (var i = 0; i < cut.Grid.Ni; i++)
            {
                var point = cut.Grid.PointAt(i, j);
                var read = after[cut.Grid.DataIndex(i, j)];
                var index = field.Grid.Locate(point)!.Value;
                Assert.Equal(index.I, Math.Round(index.I), 0.01);
                Assert.Equal(before[field.Grid.DataIndex((int)Math.Round(index.I) % field.Grid.Ni, (int)Math.Round(index.J))], read);
            }
        }
    }

    [Fact]
    public void A_forecast_of_the_cut_is_that_of_the_whole()
    {
        byte[] both = [.. File.ReadAllBytes(ReferenceData.Locate("weather/profiles/deck_hours_synthetic.grib2")), .. File.ReadAllBytes(ReferenceData.Locate("weather/beam/slab_grid.grib2"))];
        var whole = GribFiles.Set(GribSource.InMemory("whole", both));
        var lookout = GeoPoint.FromDegrees(46, 7);
        var start = WeatherRun.Of(whole)[0].Reference + Duration.FromHours(5.5);
        using var stream = new MemoryStream();
        var kept = WeatherCut.Write(whole, lookout, new Interval(start, start + Duration.FromHours(1)), [Azimuth.FromDegrees(100)], message => stream.Write(message), TestContext.Current.CancellationToken);
        Assert.InRange(kept, 88, whole.Fields.Count - 1);
        var cut = new WeatherFiles(GribFiles.Set(GribSource.InMemory("cut", stream.ToArray())));

        var ridge = new Place(lookout, Length.FromMetres(2200));
        var (before, after) = (BeamOf(new WeatherFiles(whole)), BeamOf(cut));
        Assert.Equal(before.OpticalDepth, after.OpticalDepth, 1e-3);
        Assert.InRange(after.OpticalDepth, 20, 30);

        BeamThroughCloud BeamOf(WeatherFiles files) => files.BeamTo(ridge, Azimuth.FromDegrees(100), Angle.FromDegrees(-0.7), start + Duration.FromHours(0.5), 0.13)!.Value.Beam;
    }
}
