using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>A lone hill in a plain under a wide sea of cloud, looking east into the sunrise of an equinox.</summary>
public class DeckLightTests
{
    private const double DeckM = 1000;

    private static readonly LightChart Chart = Over(DeckM);

    [Fact]
    public void The_deck_is_lit_when_the_sun_rises_over_its_own_level_horizon()
    {
        var light = DeckLight.Of(Chart)!;
        var deck = Enumerable.Range(0, Chart.Scene.Patches.Count).Where(i => Chart.Scene.Patches[i].Ground.Height.Metres < DeckM + 1).ToList();
        Assert.NotEmpty(deck);
        foreach (var i in deck)
            Assert.Equal(0, (Chart.Track.At(Chart.SunStretches(i)[0].StartS) - SunriseOver(Chart.Scene.Patches[i].Ground)).TotalSeconds, 3.0);
        Assert.Equal(Chart.Track.At(deck.Min(i => Chart.SunStretches(i)[0].StartS)), light.FirstSun);
        Assert.True(light.HalfLit > light.FirstSun);
    }

    [Fact]
    public void The_sun_grazes_it_at_its_altitude_there()
    {
        var light = DeckLight.Of(Chart)!;
        var later = light.HalfLit!.Value + Duration.FromMinutes(10);
        var grazing = light.At(later, Haze.None);
        // At 46° of latitude the equinox sun climbs 15° cos 46° = 10.42° an hour; refraction, less above, takes its part of that.
        Assert.Equal(10.42 / 6, (Airless(grazing) - Airless(light.At(light.HalfLit.Value, Haze.None))).Degrees, 0.02);
        Assert.Equal(grazing.Altitude.Sin() * DirectBeam.At(grazing.Altitude, Length.FromMetres(DeckM), Haze.None).NormalIlluminanceLux, grazing.DirectLux, grazing.DirectLux * 0.01);
        Assert.Equal(0, light.At(light.FirstSun!.Value - Duration.FromMinutes(20), Haze.None).DirectLux);

        Angle Airless(GrazingSun sun) => Refraction.ToAirless(sun.Altitude, Length.FromMetres(DeckM));
    }

    [Fact]
    public void Without_a_deck_there_is_no_light_on_it() => Assert.Null(DeckLight.Of(Over(deckM: null)));

    private static LightChart Over(double? deckM)
    {
        var posts = new GridPosts(201, 401, 46.2, 7.5, 0.002, 0.002);
        var heights = new float[posts.Rows * posts.Columns];
        for (var i = 0; i < heights.Length; i++) heights[i] = i % posts.Columns < 20 ? 1500 : 400;
        var scene = Scene.Of(
            new ElevationGrid(posts, heights, "made"), SightModel.Usual, Place.FromDegrees(46, 7.537, 1700), BearingSpan.FromDegrees(80, 100),
            LightThresholds.Usual, deckM is { } top ? Length.FromMetres(top) : null);
        return LightChart.Over(scene, new Interval(Instant.FromUtc(2026, 3, 20, 0, 0), Instant.FromUtc(2026, 3, 21, 0, 0)))!;
    }

    /// <summary>When 90 % of the disc stands over the horizontal plane, by the sun's own position and refraction.</summary>
    private static Instant SunriseOver(Place ground)
    {
        var level = Disc.HeightForShareOfArea(LightThresholds.Usual.DiscShare);
        var morning = new Interval(Instant.FromUtc(2026, 3, 20, 4, 0), Instant.FromUtc(2026, 3, 20, 8, 0));
        return Assert.Single(new TimeCurve(morning, Duration.FromMinutes(10), Height).Crossings(level)).At;

        double Height(Instant instant)
        {
            var sun = Sun.At(instant).SeenFrom(ground);
            return Refraction.ToApparent(sun.AirlessAltitude, ground.Height) / sun.Semidiameter;
        }
    }
}
