using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>The same invented flight in every format.</summary>
public class SoundingFormatTests
{
    [Theory]
    [InlineData(nameof(MadeSoundings.Listing), "university text listing")]
    [InlineData(nameof(MadeSoundings.NewerListing), "university text listing")]
    [InlineData(nameof(MadeSoundings.UniversityCsv), "CSV with named columns")]
    [InlineData(nameof(MadeSoundings.PlainCsv), "CSV with named columns")]
    [InlineData(nameof(MadeSoundings.TableBetweenMarks), "table between %RAW% and %END%")]
    [InlineData(nameof(MadeSoundings.ProfileJson), "JSON profile")]
    [InlineData(nameof(MadeSoundings.Temp), "WMO FM 35 TEMP message")]
    public void The_content_tells_the_format_and_the_flight_is_the_same(string made, string format)
    {
        var sounding = SoundingFile.Read(MadeSoundings.Of(made), made);
        Assert.Equal(format, sounding.Format);
        var profile = Profile.Of(sounding, made);
        var level = profile.Levels.Single(level => Math.Abs(level.PressureHPa - 908.9) < 0.2);
        Assert.Equal(2.8, level.TemperatureC, 0.001);
        // The message gives depressions above 5 °C in whole degrees, and heights at mandatory levels only.
        Assert.Equal(-6.2, level.DewPointC, 0.001);
        Assert.Equal(900, level.HeightM, 8.0);
        Assert.Equal(200, level.WindFromDeg);
        Assert.Equal(8, level.WindKt!.Value, 0.3);
        Assert.Equal(450, profile.Surface.HeightM, 8.0);

        var deck = CloudDiagnosis.Of(profile).Deck!;
        Assert.Equal(DeckKind.Fog, deck.Kind);
        // 0.2 °C at 650 m and 9.0 °C at 900 m: 2 °C at 650 + 250 · 1.8/8.8.
        Assert.Equal(701.1, deck.TopHigh.Metres, 8.0);
    }

    [Fact]
    public void A_listing_says_its_station_and_hour()
    {
        var older = SoundingFile.Read(MadeSoundings.Listing, "listing");
        Assert.Equal(("11999 Hochtal", Instant.FromUtc(2026, 2, 14, 6, 0)), (older.Station, older.At));
        var newer = SoundingFile.Read(MadeSoundings.NewerListing, "listing");
        Assert.Equal(("11999", Instant.FromUtc(2026, 2, 14, 6, 0), GeoPoint.FromDegrees(47.2, 9.6)), (newer.Station, newer.At, newer.Place));
    }

    [Fact]
    public void The_units_line_decides_between_knots_and_metres_a_second()
    {
        var inKnots = SoundingFile.Read(MadeSoundings.Listing.Replace("knot", "m/s ", StringComparison.Ordinal), "listing");
        // 4 m/s are 14.4 km an hour, and 7.775 knots of 1852 m.
        Assert.Equal(7.775, inKnots.Levels[1].WindKt!.Value, 0.001);
    }

    [Fact]
    public void A_listing_without_its_units_line_is_refused()
    {
        var lines = MadeSoundings.Listing.Split('\n').Where(line => !line.Contains("knot", StringComparison.Ordinal));
        Refused(string.Join('\n', lines), "knots or metres a second");
    }

    [Theory]
    [InlineData("knot", "warp", "a unit that is not known ('warp'); kt, m/s, km/h or mph")]
    [InlineData("TEMP", "XXXX", "no sounding format known here")]
    public void A_listing_in_unknown_units_or_without_temperature_is_refused(string from, string to, string why) =>
        Refused(MadeSoundings.Listing.Replace(from, to, StringComparison.Ordinal), why);

    [Fact]
    public void The_headings_that_a_refusal_proposes_are_read()
    {
        var headings = NamedColumnsFormat.Hint.Split("such as ")[1].TrimEnd('.');
        var sounding = SoundingFile.Read($"{headings}\n950,500,4,3.5,120,3\n900,950,2,1.5,130,4\n850,1400,6,-4,140,5\n", "table");
        Assert.Equal(3, sounding.Levels.Count);
        Assert.Equal((950, 500, 4, 3.5), (sounding.Levels[0].PressureHPa, sounding.Levels[0].HeightM, sounding.Levels[0].TemperatureC, sounding.Levels[0].DewPointC));
    }

    [Theory]
    [InlineData("wind_speed_kmh", "wind_speed", "'wind_speed' does not name its unit; kt, m/s, km/h or mph")]
    [InlineData("temp_c", "temp_x", "a unit that is not known ('x'); C, K or F")]
    [InlineData("dewpoint_c", "humidity_%", "no column for the dew point")]
    [InlineData("wind_dir_deg", "temperature_c", "holds the same as another column")]
    public void A_table_that_leaves_its_units_open_is_refused(string from, string to, string why) =>
        Refused(MadeSoundings.PlainCsv.Replace(from, to, StringComparison.Ordinal), why);

    [Fact]
    public void Columns_may_be_in_other_units()
    {
        const string table = "pres [Pa],height (ft),t_K,td_F,wspd_mph\n96200,1476.38,271.15,28.04,10\n90890,2952.76,275.95,20.84,\n";
        var first = SoundingFile.Read(table, "table").Levels[0];
        Assert.Equal(962, first.PressureHPa, 1e-9);
        Assert.Equal(450, first.HeightM!.Value, 0.01);
        Assert.Equal(-2, first.TemperatureC!.Value, 1e-9);
        Assert.Equal(-2.2, first.DewPointC!.Value, 1e-9);
        Assert.Equal(8.690, first.WindKt!.Value, 0.001);
    }

    [Theory]
    [InlineData("")]
    [InlineData("   \n")]
    [InlineData("a letter to the editor")]
    [InlineData("ncols 4\nnrows 3\nxllcorner 7.5\n1 2 3 4\n")]
    [InlineData("{\"type\": \"FeatureCollection\"}")]
    [InlineData("{ broken")]
    [InlineData("#USM00072681 2010 12 09 12 1106  131\n21 -9999  91900B  874B   -1B  990   1   240   15\n")]
    [InlineData("<html><body>Can't get 72681 BOI Observations at 12Z 09 Dec 2010.</body></html>")]
    public void Other_text_is_refused(string text) => Refused(text, "");

    private static void Refused(string text, string why)
    {
        var refusal = Assert.Throws<BadInputException>(() => Profile.Read(text, "made.txt"));
        Assert.All(refusal.Faults, fault => Assert.Equal("made.txt", fault.Field));
        Assert.Contains(why, refusal.Message, StringComparison.Ordinal);
    }
}
