using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

public class SeasonSunTests
{
    [Theory]
    [InlineData(46, 0.9, 0, 0.025)]
    [InlineData(46, 0, 1.3, 0.025)]
    [InlineData(-34, -0.9, 1, 0.025)]
    [InlineData(70, 0.6, 1.8, 0.025)]
    public void Up_to_a_hundred_kilometres_away_the_suns_place_is_that_of_its_theory(double latitude, double northDeg, double eastDeg, double withinDeg)
    {
        var (middle, away) = (Place.FromDegrees(latitude, 7, 2000), Place.FromDegrees(latitude + northDeg, 7 + eastDeg, 1000));
        foreach (var date in (LocalDate[])[new(2026, 3, 20), new(2026, 6, 21), new(2026, 11, 3)])
        {
            var sun = SeasonSun.Of(LocalDay.Of(date, middle.Point, null), middle)!;
            var offset = GroundOffset.Between(middle.Point, away.Point);
            for (var look = 0; look < sun.Looks; look++)
            {
                var exact = Sun.At(sun.At(look * SeasonSun.LookS)).SeenFrom(away);
                // Light comes and goes low over the horizon; high up azimuths turn fast, and nothing hangs on them.
                if (exact.AirlessAltitude.Degrees > 30) continue;
                Assert.Equal(exact.AirlessAltitude.Degrees, double.RadiansToDegrees(sun.AirlessRad(look, offset)), withinDeg);
                var turn = Azimuth.FromRadians(sun.AzimuthRad(look, offset)).TurnTo(exact.Azimuth);
                Assert.Equal(0, turn.Degrees * exact.AirlessAltitude.Cos(), 2 * withinDeg);
            }
        }
    }

    [Fact]
    public void A_polar_night_has_no_sun()
    {
        var place = Place.FromDegrees(78.5, 15.3);
        Assert.Null(SeasonSun.Of(LocalDay.Of(new LocalDate(2026, 12, 21), place.Point, null), place));
        var summer = SeasonSun.Of(LocalDay.Of(new LocalDate(2026, 6, 21), place.Point, null), place)!;
        Assert.Equal(86400, summer.LengthS);
    }
}
