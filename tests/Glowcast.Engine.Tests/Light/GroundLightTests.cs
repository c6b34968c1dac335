using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Light;

/// <summary>From the beam to the shutter, by an independent program's arithmetic on the same definitions (Reference/picture, D and F).</summary>
public class GroundLightTests
{
    [Fact]
    public void Light_lift_and_luminance_of_ground_are_those_of_their_definition()
    {
        foreach (var row in ReferenceData.Rows("picture/luminance_exposure.csv"))
        {
            var light = LightOf(row);
            Near(row.Number("direct_lx"), light.DirectLux, 1e-4);
            Near(row.Number("sky_part_lx"), light.SkyLux, 1e-4);
            Near(row.Number("luminance_at_ground_cd_m2"), light.LuminanceCd(row.Number("reflectance")), 1e-4);
            if (row["lift_stops"] is not ("" or "inf")) Assert.Equal(row.Number("lift_stops"), light.LiftStops, 1e-4);
            if (row["lit_at_1_stop"].Length > 0) Assert.Equal(row.Flag("lit_at_1_stop"), light.DirectLux >= light.DirectNeededLux(1) - 1e-9);
        }
    }

    [Fact]
    public void Exposure_follows_from_the_luminance_seen()
    {
        foreach (var row in ReferenceData.Rows("picture/luminance_exposure.csv"))
        {
            var luminance = row.Number("luminance_seen_cd_m2");
            var ev = ExposureValue.OfLuminance(luminance);
            Assert.Equal(row.Number("ev100_K12.5"), ev, 0.001);
            Near(row.Number("shutter_s_f8_mid"), Metering.ShutterS(ev, 8, 100), 1e-3);
            Near(row.Number("shutter_s_f11_mid"), Metering.ShutterS(ev, 11, 100), 1e-3);
            Near(row.Number("shutter_s_f8_lit_0.5_stop_below_clipping"), Metering.ShutterS(Metering.Ev100UnderClipping(luminance, 0.5), 8, 100), 1e-3);
            Near(row.Number("shutter_s_f8_lit_1_stop_below_clipping"), Metering.ShutterS(Metering.Ev100UnderClipping(luminance, 1), 8, 100), 1e-3);
        }
    }

    // The table uses ln 50 and ln 20 where we round to 3.912 and 2.996: up to 3.5e-4 after four ranges of visibility.
    [Fact]
    public void Contrast_through_air_and_the_distance_that_it_reaches_are_those_of_their_definition()
    {
        foreach (var row in ReferenceData.Rows("picture/contrast_air.csv"))
        {
            var given = Length.FromKilometres(row.Number("visibility_km"));
            var air = new Airlight(row["kind"] == "2%" ? given : Airlight.RangeOfOpticalRange(given), row.Number("L_horizon_sky_cd_m2"));
            var (target, distance) = (row.Number("L_target_cd_m2"), Length.FromKilometres(row.Number("distance_km")));
            Assert.Equal(row.Number("transmission"), air.Transmittance(distance), 1e-4);
            Assert.Equal(row.Number("contrast_seen"), air.Contrast(target, distance), 2e-6 + (4e-4 * Math.Abs(row.Number("contrast_seen"))));
            Assert.Equal(row.Flag("seen_at_2_percent"), Math.Abs(air.Contrast(target, distance)) >= 0.02);
            Assert.Equal(row.Flag("seen_at_5_percent"), Math.Abs(air.Contrast(target, distance)) >= 0.05);
            if (row["farthest_at_2_percent_km"].Length > 0) Assert.Equal(row.Number("farthest_at_2_percent_km"), air.ContrastWithin(target, 0.02).Kilometres, 0.01 + (2e-4 * row.Number("farthest_at_2_percent_km")));
            var stops = Math.Log2(air.Seen(row.Number("L_lit_cd_m2"), distance) / air.Seen(row.Number("L_shade_cd_m2"), distance));
            Assert.Equal(row.Number("stops_lit_over_shade_seen"), stops, 5e-4);
        }
    }

    [Fact]
    public void A_deck_is_level_ground_that_is_bright()
    {
        foreach (var row in ReferenceData.Rows("picture/deck_luminance.csv"))
        {
            var sin = Angle.FromDegrees(row.Number("sun_altitude_deg")).Sin();
            var (beam, sky) = (row.Number("beam_normal_lx"), row.Number("sky_lx"));
            var deck = GroundLight.Of(beam, 1, sin, sky, 1);
            Near(row.Number("lit_deck_cd_m2"), deck.LuminanceCd(row.Number("albedo")), 1e-3);
            Near(row.Number("shaded_deck_cd_m2"), deck.ShadeLuminanceCd(row.Number("albedo")), 1e-3);
            var ridge = GroundLight.Of(beam, 1, row.Number("ridge_n_dot_s"), sky, 1).LuminanceCd(row.Number("ridge_reflectance"));
            Near(row.Number("ridge_lit_cd_m2"), ridge, 1e-3);
            Assert.Equal(row.Number("stops_ridge_over_shaded_deck"), Math.Log2(ridge / deck.ShadeLuminanceCd(row.Number("albedo"))), 1e-3);
        }
    }

    // ../shared notes: a slope of 40° with lit snow (0.8) before it, 4000 lx on level ground, gets about 375 lx from it.
    [Fact]
    public void Lit_snow_lights_the_shade_as_much_as_the_sky_at_sunset()
    {
        var around = GroundLight.SentBackLux(0.8, 4000, 1, 1, 0);
        var view = (1 + Angle.FromDegrees(40).Cos()) / 2;
        Assert.Equal(375, GroundLight.Of(0, 0, 0, 400, view, around).ReflectedLux, 2.0);
    }

    [Fact]
    public void Ground_that_faces_away_gets_no_beam_whatever_its_horizon() => Assert.Equal(0, GroundLight.Of(5000, 1, -0.3, 400, 0.9).DirectLux);

    private static GroundLight LightOf(ReferenceRow row) => GroundLight.Of(
        row.Number("beam_normal_lx"), row.Number("disc_share"), row.Number("n_dot_s"), row.Number("sky_lx"), row.Number("sky_view"));

    private static void Near(double expected, double found, double relative) => Assert.InRange(Math.Abs(found - expected), 0, (Math.Abs(expected) * relative) + 1e-9);
}
