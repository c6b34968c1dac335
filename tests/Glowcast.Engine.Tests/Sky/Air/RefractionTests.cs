using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Sky;

public class RefractionTests
{
    // Reference/sky/refraction.csv: an independent ray trace through the same atmosphere, printed to 0.0001′ (0.006″).
    // Worst seen: 0.003″ above the horizontal, 0.006″ below it.
    [Fact]
    public void Rays_above_the_horizontal_bend_as_in_an_independent_trace() =>
        Assert.All(Rows().Where(row => row.Number("apparent_altitude_deg") >= 0), row => AssertBends(row, toleranceArcsec: 0.02));

    [Fact]
    public void Dipping_rays_bend_as_in_an_independent_trace() =>
        Assert.All(Rows().Where(row => row.Number("apparent_altitude_deg") < 0), row => AssertBends(row, toleranceArcsec: 0.02));

    // The second opinion in the same file: Hohenkerk & Sinclair's method with its own gravity and earth radius.
    [Fact]
    public void Another_method_agrees_within_its_own_choices() => Assert.All(Rows(), row =>
    {
        var apparent = Angle.FromDegrees(row.Number("apparent_altitude_deg"));
        var refraction = Refraction.OfApparent(apparent, Length.FromMetres(row.Number("observer_height_m")));
        Assert.Equal(row.Number("refraction_palRefro_arcmin") * 60, refraction.Arcseconds, apparent.Degrees >= 0 ? 2.0 : 15.0);
    });

    [Fact]
    public void Airless_altitudes_lead_back_to_the_apparent_ones() => Assert.All(Rows(), row =>
    {
        var airless = Angle.FromDegrees(row.Number("true_airless_altitude_deg"));
        var apparent = Refraction.ToApparent(airless, Length.FromMetres(row.Number("observer_height_m")));
        Assert.Equal(row.Number("apparent_altitude_deg"), apparent.Degrees, 3e-5);
    });

    // Refraction Tables of Pulkovo Observatory, 5th ed. (1985): horizontal refraction at 15 °C, 1013.25 hPa, 0.590 µm is
    // 1976.28″ (corrected value; 1977.97″ as printed).
    [Fact]
    public void Horizontal_refraction_is_Pulkovos()
    {
        var traced = new RayTrace(0.590).Follow(Angle.Zero, Length.Zero).Refraction;
        Assert.Equal(1976.28, traced.Arcseconds, 2.0);
    }

    [Fact]
    public void Air_that_is_standard_at_the_observer_changes_nothing()
    {
        var height = Length.FromMetres(3000);
        var altitude = Angle.FromDegrees(-1.2);
        Assert.Equal(
            Refraction.OfApparent(altitude, height).Arcseconds,
            Refraction.OfApparent(altitude, height, Air.Standard(height)).Arcseconds,
            1e-9);
        Assert.Equal(
            Refraction.OfAirless(altitude, height).Arcseconds,
            Refraction.OfAirless(altitude, height, Air.Standard(height)).Arcseconds,
            0.005);
    }

    [Fact]
    public void Bending_goes_with_the_density_of_the_air()
    {
        var standard = Refraction.OfApparent(Angle.FromDegrees(2), Length.Zero);
        var denser = Refraction.OfApparent(Angle.FromDegrees(2), Length.Zero, new Air(1013.25 * 1.02, 15));
        Assert.Equal(1.02, denser / standard, 9);
        Assert.Equal(Angle.Zero, Refraction.OfApparent(Angle.FromDegrees(2), Length.Zero, default(Air)));
    }

    [Theory]
    [InlineData(0, -1, 15)]
    [InlineData(0, double.NaN, 15)]
    [InlineData(0, 1013, -300)]
    [InlineData(0, 5000, 15)]
    [InlineData(3000, 1013, 0)] // reduced to sea level
    public void Air_that_cannot_be_is_refused(double heightM, double pressureHPa, double temperatureC)
    {
        var (height, air) = (Length.FromMetres(heightM), new Air(pressureHPa, temperatureC));
        Assert.False(air.CanStandAt(height));
        Assert.Throws<ArgumentOutOfRangeException>(() => Refraction.OfApparent(Angle.Zero, height, air));
    }

    [Theory]
    [InlineData(100, 1050, -65)] // a Siberian winter
    [InlineData(3500, 610, -85)] // the Antarctic plateau
    [InlineData(0, 1000, 48)]
    public void The_extremes_of_the_earth_are_not_refused(double heightM, double pressureHPa, double temperatureC) =>
        Assert.True(new Air(pressureHPa, temperatureC).CanStandAt(Length.FromMetres(heightM)));

    [Fact]
    public void Weather_moved_to_another_height_keeps_its_share_of_the_standard()
    {
        var (valley, summit) = (Length.FromMetres(500), Length.FromMetres(3000));
        Assert.Equal(Air.Standard(summit).PressureHPa, Air.Standard(valley).MovedTo(valley, summit).PressureHPa, 1e-9);
        var high = (Air.Standard(valley) with { PressureHPa = Air.Standard(valley).PressureHPa * 1.03 }).MovedTo(valley, summit);
        Assert.Equal(1.03, high.PressureHPa / Air.Standard(summit).PressureHPa, 1e-12);
        Assert.Equal(Air.Standard(summit).TemperatureC, high.TemperatureC, 1e-12);
    }

    [Property(MaxTest = 1000)]
    public Property A_higher_sun_is_seen_higher() => Prop.ForAll(Skies.Altitudes(), Skies.Heights(), Skies.Steps(), (altitudeRad, heightM, stepRad) =>
        Refraction.ToApparentRad(altitudeRad + stepRad, heightM) > Refraction.ToApparentRad(altitudeRad, heightM)
        && Refraction.ToAirlessRad(altitudeRad + stepRad, heightM) > Refraction.ToAirlessRad(altitudeRad, heightM));

    [Property(MaxTest = 1000)]
    public Property A_higher_sun_is_seen_higher_in_any_air() => Prop.ForAll(Skies.Altitudes(), Skies.Heights(), Skies.Airs(), (altitudeRad, heightM, relative) =>
    {
        var height = Length.FromMetres(heightM);
        Air? air = relative is { } r ? Skies.AirAt(height, r) : null;
        return Refraction.ToAirless(Angle.FromRadians(altitudeRad + 1e-6), height, air) > Refraction.ToAirless(Angle.FromRadians(altitudeRad), height, air);
    });

    [Property(MaxTest = 1000)]
    public Property A_lower_sun_is_lifted_more() => Prop.ForAll(Skies.Altitudes(), Skies.Heights(), Skies.Steps(), (altitudeRad, heightM, stepRad) =>
        altitudeRad - Refraction.ToAirlessRad(altitudeRad, heightM)
        >= altitudeRad + stepRad - Refraction.ToAirlessRad(altitudeRad + stepRad, heightM) - 1e-9);

    [Property(MaxTest = 1000)]
    public Property Apparent_and_airless_altitude_give_each_other() => Prop.ForAll(Skies.Altitudes(), Skies.Heights(), Skies.Airs(), (altitudeRad, heightM, relative) =>
    {
        var (airless, height) = (Angle.FromRadians(altitudeRad), Length.FromMetres(heightM));
        Air? air = relative is { } r ? Skies.AirAt(height, r) : null;
        var back = Refraction.ToAirless(Refraction.ToApparent(airless, height, air), height, air);
        return Math.Abs((back - airless).Arcseconds) < 0.05;
    });

    [Property(MaxTest = 1000)]
    public Property No_jump_between_cells_of_the_table() => Prop.ForAll(Skies.Altitudes(), Skies.Heights(), (altitudeRad, heightM) =>
    {
        // The steepest refraction changes by less than its angle, and by less than 1″ a metre of height.
        var here = Refraction.ToAirlessRad(altitudeRad, heightM);
        var beside = Refraction.ToAirlessRad(altitudeRad + 1e-9, heightM + 1e-4);
        return Math.Abs(beside - here) < 1e-8;
    });

    [Property(MaxTest = 1000)]
    public Property Every_input_has_an_answer() => Prop.ForAll(Skies.Altitudes(), Gen.Choose(-12_000_000, 12_000_000).Select(mm => mm / 1000.0).ToArbitrary(), (altitudeRad, heightM) =>
    {
        var refraction = Refraction.OfAirless(Angle.FromRadians(2 * altitudeRad), Length.FromMetres(heightM));
        return refraction.Degrees is >= 0 and < 2;
    });

    [Fact]
    public void Below_the_last_ray_refraction_stays_what_it_was()
    {
        var height = Length.FromMetres(3000);
        var atMost = Refraction.OfApparent(Angle.FromDegrees(-5), height);
        Assert.Equal(atMost, Refraction.OfApparent(Angle.FromDegrees(-60), height));
        Assert.True(atMost > Refraction.OfApparent(-Refraction.Dip(height, Length.FromMetres(-430)), height));
    }

    [Fact]
    public void The_horizon_dips_as_in_the_table() => Assert.All(ReferenceData.Rows("sky/dip.csv"), row =>
    {
        var observer = Length.FromMetres(row.Number("observer_height_m"));
        var dip = Refraction.Dip(observer, Length.FromMetres(row.Number("horizon_height_m")));
        Assert.Equal(row.Number("dip_refracted_us76_deg"), dip.Degrees, 1e-5);
        Assert.Equal(row.Number("refraction_along_horizon_ray_arcmin"), Refraction.OfApparent(-dip, observer).Arcminutes, 0.001);
        Assert.Equal(row.Number("true_altitude_of_body_seen_on_horizon_deg"), Refraction.ToAirless(-dip, observer).Degrees, 2e-5);
    });

    [Fact]
    public void Nothing_dips_above_the_observer() =>
        Assert.Equal(Angle.Zero, Refraction.Dip(Length.FromMetres(100), Length.FromMetres(101)));

    [Fact]
    public void Level_rays_bend_as_in_the_table() => Assert.All(ReferenceData.Rows("sky/terrestrial_refraction_k.csv"), row =>
        Assert.Equal(
            row.Number("k_from_us76_gradient"),
            TerrestrialRefraction.CoefficientAt(Length.FromMetres(row.Number("height_m"))),
            1e-4));

    private static IReadOnlyList<ReferenceRow> Rows() => ReferenceData.Rows("sky/refraction.csv");

    private static void AssertBends(ReferenceRow row, double toleranceArcsec)
    {
        var refraction = Refraction.OfApparent(
            Angle.FromDegrees(row.Number("apparent_altitude_deg")), Length.FromMetres(row.Number("observer_height_m")));
        Assert.Equal(row.Number("refraction_us76_raytrace_arcmin") * 60, refraction.Arcseconds, toleranceArcsec);
    }
}
