using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>What is wrong with a sounding is put right and said, or refused.</summary>
public class ProfileCleaningTests
{
    private static readonly SoundingLevel[] Sound =
    [
        .. new (double HeightM, double TemperatureC, double DewPointC)[] { (500, 0, -0.2), (700, -1, -1.2), (900, 5, -5), (1200, 4, -10), (1500, 3, -15), (3000, -6, -25) }
            .Select(level => new SoundingLevel(MadeProfile.PressureHPa(level.HeightM), level.HeightM, level.TemperatureC, level.DewPointC, 180, 4)),
    ];

    [Fact]
    public void A_sound_one_is_taken_as_it_is()
    {
        var profile = Clean(Sound);
        Assert.Empty(profile.Cleaned);
        Assert.Equal(Sound.Length, profile.Levels.Count);
    }

    [Fact]
    public void A_repeated_level_counts_once_and_its_blanks_are_filled()
    {
        var profile = Clean([Sound[0] with { WindKt = null }, Sound[0] with { TemperatureC = 9, WindKt = 7 }, .. Sound[1..]]);
        Assert.Equal((0, 7), (profile.Surface.TemperatureC, profile.Surface.WindKt));
        Assert.Contains("repeated a pressure", Assert.Single(profile.Cleaned), StringComparison.Ordinal);
    }

    [Fact]
    public void Levels_out_of_order_are_put_in_order()
    {
        var profile = Clean([Sound[2], Sound[0], Sound[1], .. Sound[3..]]);
        Assert.Equal(Clean(Sound).Levels, profile.Levels);
        Assert.Contains("order of falling pressure", Assert.Single(profile.Cleaned), StringComparison.Ordinal);
    }

    [Fact]
    public void A_level_whose_height_falls_is_left_out()
    {
        var profile = Clean([.. Sound[..3], Sound[3] with { HeightM = 899 }, .. Sound[4..]]);
        Assert.Equal(Sound.Length - 1, profile.Levels.Count);
        Assert.Contains("899 m after 900 m", Assert.Single(profile.Cleaned), StringComparison.Ordinal);
    }

    [Fact]
    public void A_dew_point_above_the_temperature_is_lowered_to_it()
    {
        var profile = Clean([Sound[0] with { DewPointC = 0.3 }, .. Sound[1..]]);
        Assert.Equal(0, profile.Surface.DepressionC);
        Assert.Contains("lowered to it", Assert.Single(profile.Cleaned), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(61.0, null, null, "temperature of 61")]
    [InlineData(null, 46.0, null, "dew point of 46")]
    [InlineData(null, null, 400.0, "wind speed of 400")]
    public void Values_that_cannot_be_are_left_out(double? temperatureC, double? dewPointC, double? windKt, string said)
    {
        var bad = Sound[3] with { TemperatureC = temperatureC ?? 4, DewPointC = dewPointC ?? -10, WindKt = windKt ?? 4 };
        Assert.Contains(said, Clean([.. Sound[..3], bad, .. Sound[4..]]).Cleaned[0], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-925)]
    [InlineData(9250)]
    public void A_pressure_that_cannot_be_takes_its_level_with_it(double pressureHPa)
    {
        var profile = Clean([.. Sound, Sound[3] with { PressureHPa = pressureHPa }]);
        Assert.Equal(Sound.Length, profile.Levels.Count);
        Assert.Single(profile.Cleaned);
    }

    [Fact]
    public void Heights_that_are_missing_follow_from_pressure_and_temperature()
    {
        // At 0 °C throughout and dry, 29.271 m/K · 273.15 K · ln(p₁/p₂): 1000 to 900 hPa are 842.4 m (hypsometric equation, R = 287.05, g = 9.80665).
        SoundingLevel Level(double pressureHPa, double? heightM) => new(pressureHPa, heightM, 0, -80, 180, 4);
        var profile = Clean([Level(1000, 100), Level(950, null), Level(900, null), Level(800, null)]);
        Assert.Equal([100, 510.1, 942.4, 1884.1], profile.Levels.Select(level => Math.Round(level.HeightM, 1)));
    }

    [Fact]
    public void Between_two_known_heights_the_others_are_fitted_in()
    {
        SoundingLevel Level(double pressureHPa, double? heightM) => new(pressureHPa, heightM, 0, -80, 180, 4);
        var profile = Clean([Level(1000, 100), Level(950, null), Level(900, 962.4)]);
        // Twenty metres more than computed in all, of which the first half gets its share.
        Assert.Equal(100 + (410.1 * 862.4 / 842.4), profile.Levels[1].HeightM, 0.1);
    }

    [Fact]
    public void A_long_list_of_remarks_is_cut_short()
    {
        var windy = Sound.Concat(Enumerable.Range(1, 30).Select(i => new SoundingLevel(600 - i, WindKt: 400)));
        var cleaned = Clean([.. windy]).Cleaned;
        Assert.Equal(21, cleaned.Count);
        Assert.Equal("There were 11 more such remarks.", cleaned[^1]);
    }

    [Fact]
    public void Gaps_in_the_lower_air_are_said() =>
        Assert.Equal("There is no level between 1500 and 3000 m: a deck that begins and ends there does not show.", Assert.Single(Clean(Sound).Gaps));

    [Fact]
    public void Feet_called_metres_are_refused() => Refused([.. Sound.Select(level => level with { HeightM = level.HeightM / 0.3048 })], "another unit");

    [Fact]
    public void Kelvin_called_Celsius_is_refused() => Refused([.. Sound.Select(level => level with { TemperatureC = level.TemperatureC + 273.15 })], "temperature of 273.15");

    [Fact]
    public void Without_any_height_it_is_refused() => Refused([.. Sound.Select(level => level with { HeightM = null })], "no height");

    [Fact]
    public void Two_levels_are_too_few() => Refused(Sound[..2], "at least 3");

    private static Profile Clean(SoundingLevel[] levels) => Profile.Of(new Sounding("made", levels), "made");

    private static void Refused(SoundingLevel[] levels, string why)
    {
        var refusal = Assert.Throws<BadInputException>(() => Clean(levels));
        Assert.Contains(why, refusal.Message, StringComparison.Ordinal);
    }
}
