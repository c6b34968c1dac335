using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Luminance in the picture, black point and exposure over the hand-made valley, and against published guide values.</summary>
public class PictureTonesTests
{
    private static readonly LightThresholds Thresholds = LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(8) };

    private static readonly Interval Autumn = LocalDay.Of(new LocalDate(2026, 10, 20), Valley.Lookout.Point, null);

    private static readonly Lazy<LightChart> Chart = new(() => LightChart.Over(
        Scene.Of(Valley.Grid, SightModel.Usual, Valley.Lookout, BearingSpan.FromDegrees(262, 278), Thresholds), Autumn)!);

    private static readonly Lazy<RidgeBrightness> Ridge = new(() => RidgeBrightness.Of(Chart.Value.Scene, Chart.Value.Track, new Haze(0.05))!);

    private static LightWindow Morning => WindowSearch.Windows(Chart.Value)[0];

    [Fact]
    public void A_lit_face_has_the_luminance_of_its_beam_its_facing_and_its_sky()
    {
        var tones = TonesAt(Morning.Middle, 250);
        var sun = Sun.At(Morning.Middle).SeenFrom(Valley.WestCrest);
        var apparent = Refraction.ToApparent(sun.AirlessAltitude, Valley.WestCrest.Height);
        // The face rises 100 m a column towards the west: it faces east.
        var normal = GroundNormal.OfRise(-100 / 63.9, 0);
        var cos = normal.CosTo((Math.Sin(sun.Azimuth.Radians) * apparent.Cos(), Math.Cos(sun.Azimuth.Radians) * apparent.Cos(), apparent.Sin()));
        // A cell and more below the top, where the face is a plane, and above the edge of the shadow, where the whole disc shines.
        var lit = tones.Ground.Zip(Chart.Value.Scene.Patches)
            .Where(part => part.First.Role != PatchRole.Valley && part.Second.Ground.Height.Metres is > 1000 and < 2450).ToList();
        Assert.NotEmpty(lit);
        foreach (var (tone, patch) in lit)
        {
            var beam = DirectBeam.At(apparent, patch.Ground.Height, new Haze(0.05), distanceAu: Sun.At(Morning.Middle).DistanceAu).NormalIlluminanceLux;
            // The beam is worked out every 250 m of height, and each patch sees the sun a little elsewhere.
            Assert.InRange(tone.Light.DirectLux / (beam * cos), 0.97, 1.03);
            Assert.Equal(tone.BareCd, 0.8 / Math.PI * tone.Light.TotalLux, 1e-6);
        }
    }

    [Fact]
    public void The_darkest_tenth_and_the_brightest_are_means_by_solid_angle()
    {
        var tones = TonesAt(Morning.Middle, 250);
        var range = ToneRange.Of(tones)!;
        var all = tones.Ground.Sum(tone => tone.Weight);
        var belowDarkest = tones.Ground.Where(tone => tone.SeenCd < range.DarkestCd).Sum(tone => tone.Weight);
        Assert.InRange(belowDarkest / all, 0, 0.1);
        Assert.True(range.Stops <= range.BareStops + 1e-9, "air only draws tones together");
        Assert.Equal(Math.Log2(range.BrightestCd / range.DarkestCd), range.Stops, 1e-9);
    }

    [Fact]
    public void Haze_before_the_picture_lifts_its_blacks_and_at_last_hides_the_ridge()
    {
        var ranges = new[] { 250.0, 80, 20, 2 }.Select(km => (Tones: TonesAt(Morning.Middle, km), Km: km)).ToList();
        for (var i = 1; i < ranges.Count; i++)
            Assert.True(ToneRange.Of(ranges[i].Tones)!.Stops < ToneRange.Of(ranges[i - 1].Tones)!.Stops);
        Assert.True(RidgeInAir.Of(ranges[0].Tones)!.IsSeen);
        // The crest is 13 km away: through 2 km of visibility e^(−25) is left.
        Assert.False(RidgeInAir.Of(ranges[^1].Tones)!.IsSeen);
    }

    [Fact]
    public void Rock_on_rock_has_less_between_its_tones_than_snow_over_rock()
    {
        var rock = PictureTones.Of(Chart.Value, Morning.Middle, Ridge.Value, Length.FromKilometres(250), new Surfaces(new Reflectances(0.15, 0.15)));
        Assert.True(ToneRange.Of(rock)!.Stops < ToneRange.Of(TonesAt(Morning.Middle, 250))!.Stops - 1);
    }

    [Fact]
    public void A_snow_line_parts_bright_ground_from_dark_by_its_height()
    {
        var line = new Surfaces(Reflectances.Usual, Length.FromMetres(2400));
        foreach (var patch in Chart.Value.Scene.Patches)
            Assert.Equal(patch.Ground.Height.Metres >= 2400 ? 0.8 : 0.15, line.Of(patch, isDeck: false));
        Assert.Equal(0.6, line.Of(Chart.Value.Scene.Patches[0], isDeck: true));
    }

    [Fact]
    public void The_brightest_ground_stays_under_clipping_by_the_margin()
    {
        foreach (var margin in new[] { 0.5, 1.0, 2.0 })
        {
            var exposure = ExposureOf(Morning, new ExposureSettings(8, 100, margin));
            foreach (var instant in new[] { Morning.Start.At, Morning.Middle, Morning.End.At })
            {
                var brightest = TonesAt(instant, 80).Ground.Where(tone => tone.Weight > 0).OrderByDescending(tone => tone.SeenCd).Skip(30).First();
                var metered = ExposureValue.OfLuminance(brightest.SeenCd);
                Assert.True(exposure.Ev100 >= metered - Metering.ClippingStops + margin - 0.1, $"margin {margin}, {instant}");
            }
        }
    }

    [Fact]
    public void Aperture_and_sensitivity_change_the_shutter_and_nothing_else()
    {
        var (one, other) = (ExposureOf(Morning, new ExposureSettings(8)), ExposureOf(Morning, new ExposureSettings(11, 400)));
        Assert.Equal(one.Ev100, other.Ev100, 1e-9);
        Assert.Equal(one.ShutterS * 121 / 64 / 4, other.ShutterS, 1e-9);
        Assert.Equal(64 / Math.Pow(2, one.Ev100), one.ShutterS, 1e-9);
    }

    // Guide values of ANSI PH2.7-1986 (Reference/picture/published_values.csv): full sun EV 15, snow in full sun 16. Sunny 16 is EV 14.6 to 15. Lit snow, exposed by the light on it and
    // kept a stop under clipping, must come out about there in the clear air of midday.
    [Fact]
    public void Midday_is_the_sun_of_the_sunny_sixteen()
    {
        var noon = Enumerable.Range(0, Chart.Value.Minutes).Select(minute => Chart.Value.Track.At(60.0 * minute))
            .MaxBy(at => Sun.At(at).SeenFrom(Valley.Lookout).AirlessAltitude);
        var tones = TonesAt(noon, 250);
        var exposure = PictureExposure.Of(tones, tones, tones, new ExposureSettings(16))!;
        Assert.InRange(exposure.Ev100, 14, 16.2);
        Assert.InRange(exposure.ShutterS, 1 / 300.0, 1 / 60.0);
        Assert.InRange(exposure.Kelvin!.Value, 4500, 6500);
    }

    [Fact]
    public void Low_sun_is_warm_and_its_drift_is_that_of_the_light()
    {
        var exposure = ExposureOf(Morning, new ExposureSettings(8));
        Assert.Equal(exposure.End.Ev100 > exposure.Start.Ev100, exposure.DriftStops > 0);
        Assert.Equal(new[] { exposure.Start.Ev100, exposure.Middle.Ev100, exposure.End.Ev100 }.Max(), exposure.Ev100);
        Assert.InRange(exposure.Kelvin!.Value, 1500, 6500);
    }

    private static PictureExposure ExposureOf(LightWindow window, ExposureSettings settings) =>
        WindowTones.Of(Chart.Value, new Interval(window.Start.At, window.End.At), Ridge.Value, Length.FromKilometres(80), Surfaces.Usual, settings).Exposure!;

    private static PictureTones TonesAt(Instant at, double visibilityKm) =>
        PictureTones.Of(Chart.Value, at, Ridge.Value, Length.FromKilometres(visibilityKm), Surfaces.Usual);
}
