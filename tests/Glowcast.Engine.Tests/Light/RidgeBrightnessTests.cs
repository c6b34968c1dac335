using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>The brightness of the ridge against the sun and the air it is made of, asked one by one.</summary>
public class RidgeBrightnessTests
{
    [Fact]
    public void Brightness_is_the_less_sure_the_lower_the_sun()
    {
        var day = LocalDay.Of(new LocalDate(2026, 3, 20), Valley.WestCrest.Point, null);
        var sunrise = Engine.Sky.SunEvents.Of(day, Valley.WestCrest).RiseSet.Risings[0];
        var ridge = RidgeBrightness.Of(Valley.WestCrest, SunTrack.Over(day), new Engine.Sky.Haze(0.05));
        var (low, high) = (ridge.UncertaintyStopsAt(sunrise + Duration.FromMinutes(15)), ridge.UncertaintyStopsAt(sunrise + Duration.FromHours(4)));
        Assert.True(low > high, $"{low} and {high} stops");
        Assert.InRange(low, 0.2, 3);
        Assert.InRange(high, 0.02, 0.3);
    }

    private static readonly Haze Air = new(0.05);
    private static readonly Interval Day = LocalDay.Of(new LocalDate(2026, 10, 20), Valley.Lookout.Point, null);
    private static readonly SunTrack Morning = SunTrack.Over(new Interval(Day.Start + Duration.FromHours(6), Day.Start + Duration.FromHours(12)));
    private static readonly RidgeBrightness Ridge = RidgeBrightness.Of(Valley.WestCrest, Morning, Air);

    [Theory]
    [InlineData(30)]
    [InlineData(47.5)]
    [InlineData(90)]
    [InlineData(300.3)]
    public void It_is_the_beam_and_the_sky_of_the_sun_at_that_moment(double minutes)
    {
        var at = Morning.At(60 * minutes);
        var sun = Sun.At(at).SeenFrom(Valley.WestCrest);
        var height = Valley.WestCrest.Height;
        var beam = DirectBeam.At(Refraction.ToApparent(sun.AirlessAltitude, height), height, Air, distanceAu: sun.DistanceAu);

        var light = Ridge.At(at);
        // Between two minutes the logarithm is taken to run straight.
        const double stops = 0.01;
        Assert.Equal(0, Math.Log2(light.DirectLux / beam.NormalIlluminanceLux), stops);
        Assert.Equal(0, Math.Log2(light.DiffuseLux / SkyLight.IlluminanceLux(sun.AirlessAltitude)), stops);
        Assert.Equal(beam.Colour.X, light.DirectColour.X, 0.001);
        Assert.Equal(beam.Colour.Y, light.DirectColour.Y, 0.001);
    }

    // Along rays that dip towards a lower horizon the air grows so fast that a minute is coarse.
    [Theory]
    [InlineData(0, 0.01)]
    [InlineData(-0.5, 0.02)]
    [InlineData(-1.5, 0.12)]
    public void Half_way_between_two_minutes_the_beam_is_as_good_as_said(double aboveDeg, double stops)
    {
        var height = Valley.WestCrest.Height;
        var worst = 0.0;
        for (var seconds = 30.0; seconds < Morning.LengthS; seconds += 60)
        {
            var sun = Sun.At(Morning.At(seconds)).SeenFrom(Valley.WestCrest);
            var apparent = Refraction.ToApparent(sun.AirlessAltitude, height);
            if (apparent.Degrees < aboveDeg) continue;
            var beam = DirectBeam.At(apparent, height, Air, distanceAu: sun.DistanceAu);
            worst = Math.Max(worst, Math.Abs(Math.Log2(Ridge.At(Morning.At(seconds)).DirectLux / beam.NormalIlluminanceLux)));
        }
        Assert.InRange(worst, 0, stops);
    }

    [Fact]
    public void A_rising_sun_brightens_the_beam_faster_than_the_sky_and_whitens_it()
    {
        var risen = Enumerable.Range(0, 360).First(minute => Sun.At(Morning.At(60 * minute)).SeenFrom(Valley.WestCrest).AirlessAltitude > Angle.FromDegrees(1));
        var (first, second) = (Morning.At(60 * risen), Morning.At(60 * (risen + 10)));
        var rate = Ridge.RateBetween(first, second);
        Assert.True(rate.Direct > rate.Total && rate.Total > rate.Diffuse && rate.Diffuse > 0, rate.ToString());
        Assert.Equal(rate.Total * 10, Ridge.StopsFrom(first, second), 1e-9);
        Assert.True(Ridge.At(first).DirectColour.Correlated()!.Value.Kelvin < Ridge.At(second).DirectColour.Correlated()!.Value.Kelvin);
    }

    [Fact]
    public void Outside_its_stretch_it_keeps_its_ends_and_below_the_horizon_it_stays_finite()
    {
        Assert.Equal(Ridge.At(Morning.At(0)), Ridge.At(Morning.At(-100)));
        Assert.Equal(Ridge.At(Morning.At(Morning.LengthS)), Ridge.At(Morning.At(Morning.LengthS + 100)));
        var whole = RidgeBrightness.Of(Valley.WestCrest, SunTrack.Over(Day), Air);
        for (var hours = 0; hours <= 24; hours++)
        {
            var light = whole.At(Day.Start + Duration.FromHours(hours));
            Assert.True(double.IsFinite(Math.Log2(light.DirectLux)) && light.DiffuseLux > 0, light.ToString());
        }
    }

    [Fact]
    public void The_crest_of_median_height_stands_for_the_ridge()
    {
        var scene = Scene.Of(Valley.Grid, Terrain(), Valley.Lookout, Valley.West, LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(8) });
        var heights = scene.Patches.Where(patch => patch.Role == PatchRole.Crest).Select(patch => patch.Ground.Height.Metres).ToList();
        var crest = RidgeBrightness.Of(scene, Morning, Air)!.Crest.Height.Metres;
        Assert.InRange(heights.Count(height => height < crest), 0, heights.Count / 2);
        Assert.InRange(heights.Count(height => height > crest), 0, heights.Count / 2);

        var bare = Scene.Of(Valley.Grid, Terrain(), Valley.Lookout, Valley.West, LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(60) });
        Assert.Null(RidgeBrightness.Of(bare, Morning, Air));
    }

    private static Engine.Terrain.SightModel Terrain() => Engine.Terrain.SightModel.Usual;
}
