using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Direct light on the real ground of the repository: at the moments found, the sun stands on a horizon of small steps.</summary>
public class RealGroundLightTests
{
    private const double DeltaTS = 69.2;

    [Theory]
    [InlineData(2026, 12, 21)]
    [InlineData(2026, 3, 1)]
    public void The_sun_stands_on_the_ridge_when_light_comes_and_goes(int year, int month, int day)
    {
        var start = Instant.FromUtc(year, month, day, 5, 36);
        var track = SunTrack.Over(new Interval(start, start + Duration.FromDays(1)), DeltaTS);
        var moments = 0;
        for (var i = 0; i < 24; i++)
        {
            var point = RealGround.Grid.Posts.ToPoint(60 + (i % 6 * 55), 60 + (i / 6 * 70));
            var place = new Place(point, RealGround.Grid.HeightAt(point)!.Value);
            foreach (var lit in DirectLight.On(place, RealGround.Grid, SightModel.Usual with { BeyondGrid = null }, track).Centre)
            {
                foreach (var moment in (Instant[])[lit.Time.Start, lit.Time.End])
                {
                    Assert.Equal(0, AboveRidgeDeg(place, moment), 0.02);
                    moments++;
                }
                var middle = lit.Time.Start + (lit.Time.Duration / 2);
                Assert.True(lit.Time.Duration < Duration.FromMinutes(2) || AboveRidgeDeg(place, middle) > 0);
                Assert.True(AboveRidgeDeg(place, lit.Time.Start - Duration.FromSeconds(60)) < 0);
                Assert.True(AboveRidgeDeg(place, lit.Time.End + Duration.FromSeconds(60)) < 0);
            }
        }
        Assert.True(moments >= 48, $"only {moments} moments were found");
    }

    /// <summary>The sun's centre above the highest ground [°], found in steps of 1.5 m, or of 0.25 m where it is near.</summary>
    private static double AboveRidgeDeg(Place place, Instant moment)
    {
        var sun = Sun.At(moment, DeltaTS).SeenFrom(place);
        var (angleDeg, distanceM) = SlowHorizon.Of(RealGround.Grid, place, sun.Azimuth, stepM: 1.5);
        if (distanceM < 1000) angleDeg = SlowHorizon.Of(RealGround.Grid, place, sun.Azimuth, stepM: 0.25, toM: 1500).AngleDeg;
        return Refraction.ToApparent(sun.AirlessAltitude, place.Height).Degrees - angleDeg;
    }
}
