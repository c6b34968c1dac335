using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Sky;

public class SkyLightTests
{
    // Reference/sky/sun_illuminance_seidelmann.csv: the six cubics as reproduced in Vallado, Fundamentals of Astrodynamics,
    // §5.3.4, and elsewhere. At a joint the branch below it is used, by the table and here.
    [Fact]
    public void Ground_illuminance_is_that_of_the_table() => Assert.All(ReferenceData.Rows("sky/sun_illuminance_seidelmann.csv"), row =>
    {
        var altitude = Angle.FromDegrees(row.Number("sun_altitude_deg"));
        Assert.Equal(row.Number("log10_lux"), Math.Log10(GroundIlluminance.Seidelmann(altitude)), 6e-5);
    });

    // The table's slopes are differences over some hundredths of a degree.
    [Fact]
    public void Slopes_are_those_of_the_table() =>
        Assert.All(ReferenceData.Rows("sky/illuminance_by_altitude.csv"), row =>
            Assert.Equal(row.Number("stops_per_degree"), GroundIlluminance.StopsPerDegree(Angle.FromDegrees(row.Number("sun_altitude_deg"))), 0.02));

    // Reference/sky/sun_illuminance_circular171.csv, made with a closed refraction formula, 1′ more at the horizon: worst seen
    // 1.3 % there.
    [Fact]
    public void The_second_opinion_is_that_of_the_table() => Assert.All(ReferenceData.Rows("sky/sun_illuminance_circular171.csv"), row =>
        Assert.InRange(
            GroundIlluminance.Circular171(Angle.FromDegrees(row.Number("geometric_altitude_deg"))) / row.Number("illuminance_clear_lux_sk1"),
            0.985,
            1.015));

    // American Meteorological Society, Glossary of Meteorology: horizontal illuminance of clear twilights, moonless.
    [Theory]
    [InlineData(-50.0 / 60, 410, 585)]
    [InlineData(-6, 2.0, 3.5)]
    [InlineData(-12, 0.0075, 0.0085)]
    [InlineData(-18, 0.00055, 0.00065)]
    public void Twilights_end_as_bright_as_the_AMS_says(double altitudeDeg, double fromLux, double toLux) =>
        Assert.InRange(GroundIlluminance.Seidelmann(Angle.FromDegrees(altitudeDeg)), fromLux, toLux);

    [Fact]
    public void After_sunset_all_light_is_from_the_sky() =>
        Assert.Equal(GroundIlluminance.Seidelmann(Angle.FromDegrees(-2)), SkyLight.IlluminanceLux(Angle.FromDegrees(-2)));

    [Theory]
    [InlineData(2)]
    [InlineData(10)]
    [InlineData(45)]
    [InlineData(90)]
    public void By_day_the_sky_gives_part_of_the_light(double altitudeDeg)
    {
        var altitude = Angle.FromDegrees(altitudeDeg);
        var share = SkyLight.IlluminanceLux(altitude) / GroundIlluminance.Seidelmann(altitude);
        Assert.InRange(share, 0.15, 0.999);
    }

    [Property(MaxTest = 500)]
    public Property The_sky_is_brighter_the_higher_the_sun() => Prop.ForAll(Skies.Altitudes(), altitudeRad =>
    {
        // The joints of the published formula jump by up to 5 %, which a degree outweighs where the sky still changes.
        var altitude = Angle.FromRadians(altitudeRad);
        var (lower, higher) = (SkyLight.IlluminanceLux(altitude), SkyLight.IlluminanceLux(altitude + Angle.FromDegrees(1)));
        return lower > 0 && higher >= lower * 0.97;
    });

    [Fact]
    public void Evening_light_falls_fastest_about_seven_degrees_down()
    {
        // 10° an hour, as at 46° latitude near the equinox: 1.65 stops a degree are 0.28 stop a minute.
        Assert.Equal(-0.28, SkyLight.StopsPerMinute(Angle.FromDegrees(-7), -10), 0.01);
        Assert.True(SkyLight.StopsPerDegree(Angle.FromDegrees(-7)) > SkyLight.StopsPerDegree(Angle.FromDegrees(-3)));
        Assert.True(SkyLight.StopsPerDegree(Angle.FromDegrees(-7)) > SkyLight.StopsPerDegree(Angle.FromDegrees(-11)));
    }

    [Fact]
    public void The_two_formulas_leave_half_a_stop_open_at_sunset()
    {
        Assert.InRange(SkyLight.UncertaintyStops(Angle.FromDegrees(-0.8)), 0.5, 0.6);
        Assert.InRange(SkyLight.UncertaintyStops(Angle.FromDegrees(20)), 0, 0.2);
        Assert.Equal(SkyLight.UncertaintyStops(Angle.FromDegrees(-6)), SkyLight.UncertaintyStops(Angle.FromDegrees(-15)));
    }
}
