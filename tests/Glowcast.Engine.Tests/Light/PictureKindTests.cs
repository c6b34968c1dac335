using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Forecast;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>When a day makes each kind of picture: a ridge in the west over a valley, over a sea of cloud, and under the moon.</summary>
public class PictureKindTests
{
    private const double DeckM = 1000;
    private const double PlainM = 400;
    private const double RidgeM = 2500;

    private static readonly LightChart Day = ValleyLight.Day.Chart;

    [Fact]
    public void A_lit_ridge_opens_with_the_window_over_dark_ground_and_goes_on_when_the_valley_is_lit()
    {
        var dark = Assert.Single(WindowSearch.Windows(Day));
        var lit = WindowSearch.Windows(Day, PictureKind.LitRidge)[0];
        Assert.Equal((dark.Start.At, WindowEdgeCause.RidgeLit), (lit.Start.At, lit.Start.Cause));
        Assert.Equal(WindowEdgeCause.ValleyLit, dark.End.Cause);
        Assert.True(lit.End.At > dark.End.At + Duration.FromHours(1), $"{lit.End.At}");
        Assert.Equal(WindowEdgeCause.RidgeShaded, lit.End.Cause);
    }

    // The share of the crest is counted anew, patch by patch, a row of the crest being a few per cent of it.
    [Fact]
    public void Tips_last_from_the_first_light_on_the_crest_to_half_of_it()
    {
        var tips = PictureStretches.Of(Day, PictureKind.LitTips);
        var morning = tips[0];
        Assert.True(Day.IsClimbing(morning.StartS));
        Assert.InRange(CrestLitAt(morning.StartS - 60), 0, 0.02);
        Assert.InRange(CrestLitAt(morning.StartS + 2), 0, 0.15);
        Assert.Equal(0.5, CrestLitAt(morning.EndS), 0.06);
        Assert.True(CrestLitAt(morning.EndS - 10) < CrestLitAt(morning.EndS + 10));
        Assert.True(morning.EndS <= PictureStretches.Of(Day, PictureKind.LitRidge)[0].StartS);
    }

    [Fact]
    public void Twilight_lies_between_the_sun_6_degrees_down_and_its_edge_on_the_level_horizon_of_the_ridge()
    {
        var windows = WindowSearch.Windows(Day, PictureKind.Twilight);
        Assert.Equal([DayHalf.Morning, DayHalf.Evening], windows.Select(window => window.Half));
        Assert.Equal([WindowEdgeCause.CivilTwilight, WindowEdgeCause.SunOnHorizon, WindowEdgeCause.SunOnHorizon, WindowEdgeCause.CivilTwilight], windows.SelectMany(window => new[] { window.Start.Cause, window.End.Cause }));
        // Looking west, the shadow of the earth stands in the morning; in the evening the sun is there. AMS: always higher than the sun is deep.
        Assert.True(windows[0].EarthShadowTop > -Sun.At(windows[0].Middle).SeenFrom(Valley.Lookout).AirlessAltitude);
        Assert.Null(windows[1].EarthShadowTop);
        var crest = RidgeBrightness.MedianCrest(Day.Scene)!.Value;
        foreach (var (outer, inner) in new[] { (windows[0].Start.At, windows[0].End.At), (windows[1].End.At, windows[1].Start.At) })
        {
            Assert.Equal(-6, Sun.At(outer).SeenFrom(Valley.Lookout).AirlessAltitude.Degrees, 0.005);
            var sun = Sun.At(inner).SeenFrom(crest);
            // The limb grazes the sea-level horizon: geometric dip √(2h/R), less for the bending of the ray (Bowditch: 1.76′ √h).
            var limbDeg = Refraction.ToApparent(sun.AirlessAltitude, crest.Height).Degrees + (16.0 / 60);
            Assert.Equal(-1.76 / 60 * Math.Sqrt(crest.Height.Metres), limbDeg, 0.08);
        }
    }

    [Fact]
    public void A_sea_of_cloud_is_first_in_shade_under_the_lit_ridge_and_then_lit()
    {
        var chart = Over(DeckM, LocalDay.Of(new LocalDate(2026, 3, 20), default, DateTimeZone.Utc));
        var shaded = WindowSearch.Windows(chart, PictureKind.OverShadedDeck)[0];
        var lit = WindowSearch.Windows(chart, PictureKind.OverLitDeck)[0];
        Assert.Equal((WindowEdgeCause.RidgeLit, WindowEdgeCause.DeckLit, WindowEdgeCause.DeckLit), (shaded.Start.Cause, shaded.End.Cause, lit.Start.Cause));
        Assert.True(shaded.End.At < lit.Start.At);
        Assert.Equal(DarkSource.Deck, shaded.Dark.From);
        var deck = Enumerable.Range(0, chart.Scene.Patches.Count).Where(i => chart.Scene.IsDeck(chart.Scene.Patches[i])).ToList();
        Assert.Equal(LightThresholds.Usual.ValleyLit, ShareOf(chart, deck, chart.Track.SecondsAt(shaded.End.At)), 0.05);
        Assert.Equal(1 - LightThresholds.Usual.ValleyLit, ShareOf(chart, deck, chart.Track.SecondsAt(lit.Start.At)), 0.05);
        // A quarter of an hour later in the day the sun is on all of it.
        Assert.Equal(1, ShareOf(chart, deck, chart.Track.SecondsAt(lit.Start.At) + 900), 0.02);
    }

    [Fact]
    public void Without_a_sea_of_cloud_there_is_no_picture_over_one() =>
        Assert.All([PictureKind.OverShadedDeck, PictureKind.OverLitDeck], kind => Assert.Empty(PictureStretches.Of(Day, kind)));

    // Full moon: 2026-10-26 04:12 UTC (almanacs; from memory). Three days later it rises well after sunset, in the dark, and lights a ridge in the west.
    [Fact]
    public void The_full_moon_lights_the_ridge_from_its_rise_over_the_ridges_horizon()
    {
        var (chart, moon) = Moonlit(new LocalDate(2026, 10, 29), 0.000001);
        var window = WindowSearch.Windows(chart, PictureKind.MoonlitRidge).Single(window => window.Half == DayHalf.Morning);
        Assert.Equal((LightSource.Moon, WindowEdgeCause.RidgeLit), (window.Source, window.Start.Cause));
        var crest = RidgeBrightness.MedianCrest(chart.Scene)!.Value;
        var seen = Moon.At(window.Start.At).SeenFrom(crest);
        var horizonDeg = Math.Atan2(PlainM - RidgeM, 38_000) * 180 / Math.PI;
        // Nine tenths of the disc, 0.69 of its half-width above the middle, stand over the plain's far edge, whose fall the dip of 1.4° bounds.
        Assert.InRange(Refraction.ToApparent(seen.AirlessAltitude, crest.Height).Degrees, Math.Max(horizonDeg, -1.6), 0.3);
        Assert.Equal(Moon.At(window.Middle).SeenFrom(chart.Scene.Lookout).Azimuth.Degrees, window.SunAzimuth.Degrees, 0.02);
        Assert.True(moon.OfSun is > 0.6e-6 and < 1.5e-6, $"{moon.OfSun}");
    }

    // EV −3 to −2 under a full moon: common practice, no source.
    [Fact]
    public void Ground_under_a_high_full_moon_asks_for_an_exposure_of_common_practice()
    {
        var (chart, moon) = Moonlit(new LocalDate(2026, 10, 26), 1);
        var window = WindowSearch.Windows(chart, PictureKind.MoonlitRidge).First(window => window.Half == DayHalf.Evening);
        var brightness = RidgeBrightness.Of(chart.Scene, chart.Track, new Haze(0.05), null, moon)!;
        var tones = WindowTones.Of(chart, new Interval(window.Start.At, window.End.At), brightness, Length.FromKilometres(80), Surfaces.Usual, new ExposureSettings(8));
        Assert.InRange(tones.Exposure!.Start.Ev100, -3.7, -1.3);
    }

    // In 2025 and 2026 the moon goes 28.5° south and north, 5° farther than the sun: a full moon of June stands lower in the south than any sun of the year.
    [Fact]
    public void A_moon_lower_than_any_sun_lights_the_ridge_all_the_same()
    {
        var scene = SceneOver(null, Geometry.Alone);
        var moon = Moonlight.Of(LocalDay.Of(new LocalDate(2026, 6, 29), default, DateTimeZone.Utc), scene.Lookout)!;
        var chart = LightChart.Under(moon, scene, BeamAir.Usual, TestContext.Current.CancellationToken)!;
        var south = Enumerable.Range(0, (int)chart.Track.LengthS / 60).Select(minute => minute * 60.0).MinBy(seconds => Math.Abs(chart.SourceAt(seconds).Azimuth.Degrees - 180));
        Assert.Equal(180, chart.SourceAt(south).Azimuth.Degrees, 1.0);
        Assert.True(chart.SourceAt(south).Altitude.Degrees < 90 - 46 - 23.5 - 2, $"{chart.SourceAt(south).Altitude}");
        // The slopes of a ridge from south to north, seen from the east, face the moon until it is past the south.
        Assert.True(chart.RidgeColumns.At(south - 3600) > 0.9);
    }

    [Theory]
    [InlineData(2026, 10, 10)]
    [InlineData(2026, 11, 9)]
    public void A_new_moon_lights_nothing(int year, int month, int day) =>
        Assert.Null(Moonlight.Of(LocalDay.Of(new LocalDate(year, month, day), default, DateTimeZone.Utc), Valley.Lookout));

    [Fact]
    public void The_moon_counts_only_while_the_sky_is_dark()
    {
        var (chart, moon) = Moonlit(new LocalDate(2026, 10, 26), 1);
        foreach (var dark in moon.Dark)
        {
            Assert.True(Sun.At(chart.Track.At(dark.StartS + 60)).SeenFrom(chart.Scene.Lookout).AirlessAltitude.Degrees < -11.9);
            Assert.True(Sun.At(chart.Track.At(dark.EndS - 60)).SeenFrom(chart.Scene.Lookout).AirlessAltitude.Degrees < -11.9);
        }
        Assert.All(PictureStretches.Of(chart, PictureKind.MoonlitRidge), lit => Assert.Contains(moon.Dark, dark => dark.StartS <= lit.StartS + 1e-6 && lit.EndS <= dark.EndS + 1e-6));
    }

    private static (LightChart Chart, Moonlight Moon) Moonlit(LocalDate date, double litStops)
    {
        var scene = SceneOver(null, LightThresholds.Usual with { LitStops = litStops });
        var moon = Moonlight.Of(LocalDay.Of(date, default, DateTimeZone.Utc), scene.Lookout)!;
        return (LightChart.Under(moon, scene, BeamAir.Usual, TestContext.Current.CancellationToken)!, moon);
    }

    private static LightChart Over(double? deckM, Interval day) => LightChart.Over(SceneOver(deckM, LightThresholds.Usual), day)!;

    /// <summary>A plain with a ridge from north to south along its western edge, seen from a hill in its middle.</summary>
    private static Scene SceneOver(double? deckM, LightThresholds thresholds)
    {
        var posts = new GridPosts(201, 401, 46.2, 7.5, 0.002, 0.002);
        var heights = new float[posts.Rows * posts.Columns];
        for (var i = 0; i < heights.Length; i++) heights[i] = (float)Math.Max(PlainM, RidgeM - (150.0 * Math.Abs((i % posts.Columns) - 60)));
        return Scene.Of(
            new ElevationGrid(posts, heights, "made"), SightModel.Usual, Place.FromDegrees(46, 7.75, 1700), BearingSpan.FromDegrees(260, 280), thresholds,
            deckM is { } top ? Length.FromMetres(top) : null, framing: _ => new PictureBounds(Angle.FromDegrees(-8), Angle.FromDegrees(8)));
    }

    private static double CrestLitAt(double seconds) =>
        ShareOf(Day, [.. Enumerable.Range(0, Day.Scene.Patches.Count).Where(i => Day.Scene.Patches[i].Role == PatchRole.Crest)], seconds);

    private static double ShareOf(LightChart chart, IReadOnlyList<int> patches, double seconds) =>
        patches.Where(i => chart.LitStretches(i).Any(lit => lit.Contains(seconds))).Sum(i => chart.Scene.Patches[i].Weight) / patches.Sum(i => chart.Scene.Patches[i].Weight);
}
