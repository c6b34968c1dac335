using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>Profiles out of model fields, and what the judge says of them, against tables made by an independent program (Reference/weather/PROVENANCE.md).</summary>
public class ModelProfileTests
{
    /// <summary>The tables take humidity over water.</summary>
    private const HumidityRule Rule = HumidityRule.OverWater;

    [Fact]
    public void An_analytic_deck_is_read_hour_by_hour() => SameAsTables(
        GribFiles.Copied("profiles/deck_hours_synthetic.grib2"), ReferenceData.Rows("weather/profiles/deck_hours_synthetic.levels.csv"), ReferenceData.Rows("weather/profiles/deck_hours_synthetic.decks.csv"));

    [TheoryNeeds<SharedReference>]
    [InlineData("profiles/gfs_europe_hours_blend.grib2", "gfs_europe_hours_blend")]
    [InlineData("grib/gfs_2011011012_f120_global_2p5.grib2", "gfs_global_f120")]
    [InlineData("grib/nam_2018091700_f000_lambert81km.grib2", "nam_lambert_f000")]
    public void Fields_of_services_make_the_profiles_of_the_tables(string file, string tables) => SameAsTables(
        GribFiles.Shared(file), GribFiles.SharedRows($"profiles/{tables}.levels.csv"), GribFiles.SharedRows($"profiles/{tables}.decks.csv"));

    private static void SameAsTables(GribSource file, IReadOnlyList<ReferenceRow> levels, IReadOnlyList<ReferenceRow> decks)
    {
        var weather = new WeatherFiles(GribFiles.Set(file));
        var reference = weather.Runs.Single().Reference;
        var tables = levels.ToLookup(row => (row["place"], row["forecast_h"]));
        foreach (var row in decks)
        {
            var where = $"{row["place"]} at {row["forecast_h"]} h";
            var point = GeoPoint.FromDegrees(row.Number("lat"), row.Number("lon"));
            var profile = weather.ProfileAt(point, reference + Duration.FromHours(row.Number("forecast_h")), Rule)!;
            Assert.NotNull(profile);
            SameLevels([.. tables[(row["place"], row["forecast_h"])]], profile.Diagnosis.Profile.Levels, where);
            SameDeck(row, profile, where);
        }
    }

    private static void SameLevels(IReadOnlyList<ReferenceRow> expected, IReadOnlyList<ProfileLevel> actual, string where)
    {
        Assert.Equal(expected.Count, actual.Count);
        foreach (var (row, level) in expected.Zip(actual))
        {
            Near(row.Number("pressure_hpa"), level.PressureHPa, 0.02, where);
            Near(row.Number("height_m"), level.HeightM, 0.1, where);
            Near(row.Number("temp_c"), level.TemperatureC, 0.01, where);
            Near(row.Number("dewpoint_c"), level.DewPointC, 0.01, where);
            if (!row.Has("wind_speed_kt")) continue;
            Near(row.Number("wind_speed_kt"), level.WindKt!.Value, 0.1, where);
            if (level.WindKt > 0.5) Near(0, Math.IEEERemainder(row.Number("wind_dir_deg") - level.WindFromDeg!.Value, 360), 0.5, where);
        }
    }

    private static void SameDeck(ReferenceRow row, ModelProfile profile, string where)
    {
        var diagnosis = profile.Diagnosis;
        Near(row.Number("surface_m"), profile.ModelGround.Metres, 0.1, where);
        Assert.True(string.Equals(row["likelihood"], profile.Class.ToString(), StringComparison.OrdinalIgnoreCase), where);
        Assert.Equal((int)row.Number("score"), diagnosis.Score);
        Assert.True(row.Has("base_m") == diagnosis.Deck is not null, where);
        if (diagnosis.Deck is { } deck)
        {
            Assert.Equal(row["deck_kind"], deck.Kind.ToString(), ignoreCase: true);
            Near(row.Number("base_m"), deck.Base.Metres, 1, where);
            Near(row.Number("top_low_m"), deck.TopLow.Metres, 1, where);
            Near(row.Number("top_high_m"), deck.TopHigh.Metres, 1, where);
        }
        for (var i = 1; i <= 3; i++)
            Assert.Equal(VerdictOf(row[$"verdict{i}"]), diagnosis.LookoutAt(Length.FromMetres(row.Number($"lookout{i}_m"))).Verdict);
        if (row.Has("low_cloud_pct")) Near(row.Number("low_cloud_pct"), 100 * profile.Covers.Low!.Value, 0.1, where);
        if (row.Has("total_cloud_pct")) Near(row.Number("total_cloud_pct"), 100 * profile.Covers.Total!.Value, 0.1, where);
    }

    internal static LookoutVerdict VerdictOf(string word) => word switch
    {
        "above" => LookoutVerdict.Above,
        "at-or-in-deck" => LookoutVerdict.At,
        "inside" => LookoutVerdict.In,
        "below" => LookoutVerdict.Below,
        _ => LookoutVerdict.NoDeck,
    };

    /// <summary>Saturation over ice and water at −25 °C is 0.632 and 0.807 hPa (Smithsonian Meteorological Tables, 94 and 96): 2.7 °C of dew point. At −15 °C a quarter
    /// of it counts as water by NCEP's blend.</summary>
    [Theory]
    [InlineData(-15, 7, 1.3)]
    [InlineData(-25, 7, 2.7)]
    [InlineData(-25, 98, 2.7)]
    [InlineData(5, 7, 0)]
    [InlineData(-25, 78, 0)]
    public void Humidity_by_the_producer_is_over_ice_where_it_is_cold(double temperatureC, int centre, double depressionC)
    {
        var dewC = ModelHumidity.DewPointC(temperatureC, 100, HumidityRule.ByProducer, centre);
        Assert.Equal(depressionC, temperatureC - dewC, 0.15);
        Assert.Equal(temperatureC, ModelHumidity.DewPointC(temperatureC, 100, HumidityRule.OverWater, centre), 1e-9);
    }

    [Fact]
    public void Outside_the_hours_or_the_area_there_is_no_profile()
    {
        var weather = new WeatherFiles(GribFiles.Set(GribFiles.Copied("profiles/deck_hours_synthetic.grib2")));
        var reference = weather.Runs.Single().Reference;
        Assert.Null(weather.ProfileAt(GeoPoint.FromDegrees(47, 8), reference + Duration.FromHours(13)));
        Assert.Null(weather.ProfileAt(GeoPoint.FromDegrees(10, 8), reference));
        Assert.Equal(Duration.FromHours(12), weather.Reach!.Value.Duration);
    }

    private static void Near(double expected, double actual, double tolerance, string where) =>
        Assert.True(Math.Abs(expected - actual) <= tolerance, $"{where}: expected {expected}, got {actual}");
}
