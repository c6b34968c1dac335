using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>The groups of FM 35 as WMO-No. 306 and the US handbook FMH-3 (appendix E) define them.</summary>
public class TempDecoderTests
{
    [Theory]
    // Table 3931: even tenths are zero or above, odd ones below. Table 0777: 00–50 tenths, 56–99 whole degrees less 50.
    [InlineData("22212", 22.2, 21.0)]
    [InlineData("01106", -1.1, -1.7)]
    [InlineData("20988", -20.9, -58.9)]
    [InlineData("00050", 0.0, -5.0)]
    [InlineData("00156", -0.1, -6.1)]
    [InlineData("153//", -15.3, null)]
    public void Temperature_and_dew_point_share_a_group(string group, double temperatureC, double? dewPointC)
    {
        var read = TempGroups.Temperatures(group);
        Assert.Equal(temperatureC, read!.Value.TemperatureC!.Value, 1e-9);
        if (dewPointC is { } dew) Assert.Equal(dew, read.Value.DewPointC!.Value, 1e-9);
        else Assert.Null(read.Value.DewPointC);
    }

    [Theory]
    [InlineData("12353")]
    [InlineData("1234")]
    [InlineData("12X34")]
    [InlineData("1/234")]
    public void Depressions_51_to_55_and_broken_groups_are_none(string group) => Assert.Null(TempGroups.Temperatures(group));

    [Theory]
    // FMH-3's own example: 23612 is 235° at 112 knots.
    [InlineData("23612", 235, 112)]
    [InlineData("24003", 240, 3)]
    [InlineData("00000", 0, 0)]
    [InlineData("36015", 360, 15)]
    [InlineData("35620", 355, 120)]
    public void Hundreds_of_the_wind_ride_on_its_direction(string group, double fromDeg, double speed) =>
        Assert.Equal((fromDeg, speed), TempGroups.Wind(group));

    [Theory]
    [InlineData(1000, "170", 170)]
    [InlineData(1000, "530", -30)]
    [InlineData(925, "788", 788)]
    [InlineData(850, "449", 1449)]
    [InlineData(700, "930", 2930)]
    [InlineData(700, "116", 3116)]
    [InlineData(500, "540", 5400)]
    [InlineData(300, "921", 9210)]
    [InlineData(250, "041", 10410)]
    [InlineData(100, "611", 16110)]
    public void Thousands_of_a_height_follow_from_its_level(int pressureHPa, string figures, double heightM) =>
        Assert.Equal(heightM, TempGroups.HeightM(pressureHPa, figures));

    [Fact]
    public void Winds_in_metres_a_second_become_knots()
    {
        var report = TempDecoder.Decode(MadeSoundings.Temp.Replace("TTAA 64067", "TTAA 14067", StringComparison.Ordinal).Replace("TTBB 6406/", "TTBB 1406/", StringComparison.Ordinal), "made");
        Assert.False(report.WindInKnots);
        Assert.Equal(4 * 3600 / 1852.0, report.Levels[0].Level.WindKt!.Value, 1e-9);
    }

    [Fact]
    public void Levels_above_the_highest_wind_have_no_wind_group()
    {
        // Winds up to 850 hPa only (figure 8): 700 and 500 hPa carry two groups each.
        var report = TempDecoder.Decode("TTAA 64068 11999 99962 02102 14004 85450 01065 25015 70975 08167 50540 25178 88999=", "made");
        Assert.Equal([962, 850, 700, 500], report.Levels.Select(level => level.Level.PressureHPa));
        Assert.Equal([4, 15, null, null], report.Levels.Select(level => level.Level.WindKt));
        Assert.Empty(report.PassedOver);
    }

    [Fact]
    public void A_day_and_an_hour_stand_for_the_nearest_such_flight()
    {
        var dated = new DayAndHour(31, 12);
        Assert.Equal(Instant.FromUtc(2026, 1, 31, 12, 0), dated.NearestTo(Instant.FromUtc(2026, 2, 3, 6, 0)));
        Assert.Equal(Instant.FromUtc(2025, 12, 31, 12, 0), dated.NearestTo(Instant.FromUtc(2026, 1, 2, 6, 0)));
        Assert.Equal(Instant.FromUtc(2026, 2, 1, 0, 0), new DayAndHour(31, 24).NearestTo(Instant.FromUtc(2026, 2, 1, 1, 0)));
    }

    [Fact]
    public void Part_A_alone_asks_for_part_B()
    {
        var partA = MadeSoundings.Temp[..MadeSoundings.Temp.IndexOf("TTBB", StringComparison.Ordinal)];
        Assert.Contains(Profile.Read(partA, "made").Cleaned, said => said.Contains("Get part B too", StringComparison.Ordinal));
    }

    [Fact]
    public void What_is_not_understood_is_passed_over_and_said()
    {
        var report = TempDecoder.Decode("TTBB 6406/ 11999 00962 02102 11938 0330X 22909 02859 QQQQQ 33850 01065=", "made");
        Assert.Equal([962, 909], report.Levels.Select(level => level.Level.PressureHPa));
        Assert.Equal(2, report.PassedOver.Count);
        Assert.Contains("'0330X'", report.PassedOver[0], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("TTAA 64067 11999 99962 02102 14004= TTBB 6412/ 11999 00962 02102=", "more than one flight")]
    [InlineData("TTAA 64067 11999 99962 02102 14004= TTBB 6406/ 11998 00962 02102=", "more than one flight")]
    [InlineData("TTAA 49067 11999 99962 02102 14004=", "no possible day and hour")]
    [InlineData("TTAA 6406", "no readable head")]
    [InlineData("TTAA 64067 11999 NIL=", "neither part A")]
    [InlineData("TTCC 64062 11999 70850 61756 27515=", "neither part A")]
    public void A_message_of_no_one_flight_is_refused(string message, string why)
    {
        var refusal = Assert.Throws<BadInputException>(() => TempDecoder.Decode(message, "made"));
        Assert.Contains(why, refusal.Message, StringComparison.Ordinal);
    }
}
