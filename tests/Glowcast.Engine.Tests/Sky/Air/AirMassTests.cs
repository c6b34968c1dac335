using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Sky;

public class AirMassTests
{
    // Reference/sky/airmass.csv: an independent trace at 0.7 µm; its altitudes are rounded to 0.0001°. Worst seen 0.02 %.
    [Fact]
    public void Air_passed_is_that_of_an_independent_trace() => Assert.All(ReferenceData.Rows("sky/airmass.csv"), row =>
    {
        var (altitude, height) = (Angle.FromDegrees(row.Number("apparent_altitude_deg")), Length.FromMetres(row.Number("observer_height_m")));
        AssertShare(row.Number("airmass_relative_to_local_vertical_us76"), AirMass.Relative(altitude, height), 0.0005);
        AssertShare(row.Number("airmass_in_sea_level_columns_us76"), AirMass.InSeaLevelColumns(altitude, height), 0.0005);
    });

    // Kasten & Young 1989, Applied Optics 28, 4735, Table II: relative optical air mass in the ISO standard atmosphere.
    [Theory]
    [InlineData(0, 38.0868)]
    [InlineData(1, 26.2595)]
    [InlineData(5, 10.3164)]
    [InlineData(10, 5.5841)]
    public void Air_mass_is_that_of_Kasten_and_Young(double altitudeDeg, double published) =>
        AssertShare(published, AirMass.Relative(Angle.FromDegrees(altitudeDeg), Length.Zero), 0.0015);

    [Fact]
    public void The_vertical_column_is_the_unit_at_every_height()
    {
        Assert.Equal(1, AirMass.Relative(Angle.FromDegrees(90), Length.FromMetres(4000)), 9);
        Assert.Equal(1, AirMass.InSeaLevelColumns(Angle.FromDegrees(90), Length.Zero), 5);
    }

    // Pressure is the weight of the air above; gravity, 0.13 % weaker at 4 km, is all that parts the two.
    [Fact]
    public void The_column_above_a_summit_goes_with_its_pressure()
    {
        var summit = Length.FromMetres(4000);
        var zenith = Angle.FromDegrees(90);
        AssertShare(StandardAtmosphere.PressureHPa(summit) / 1013.25, AirMass.InSeaLevelColumns(zenith, summit), 0.0015);
        var low = Air.Standard(summit) with { PressureHPa = Air.Standard(summit).PressureHPa * 0.97 };
        Assert.Equal(0.97, AirMass.InSeaLevelColumns(zenith, summit, low) / AirMass.InSeaLevelColumns(zenith, summit), 9);
    }

    [Property(MaxTest = 1000)]
    public Property A_lower_sun_shines_through_more_air() => Prop.ForAll(Skies.Altitudes(), Skies.Heights(), Skies.Steps(), (altitudeRad, heightM, stepRad) =>
    {
        var (lower, height) = (Angle.FromRadians(altitudeRad), Length.FromMetres(heightM));
        var less = AirMass.Relative(lower + Angle.FromRadians(stepRad), height);
        return less >= 0.99999 && AirMass.Relative(lower, height) >= less * (1 - 1e-7);
    });

    private static void AssertShare(double expected, double actual, double share) =>
        Assert.InRange(actual / expected, 1 - share, 1 + share);
}
