using FsCheck.Xunit;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Tests.Sky;

[Properties(Arbitrary = [typeof(SkyArbitraries)])]
public class SunPropertyTests
{
    [Property]
    public void Every_place_and_instant_has_a_sun(Place place, Instant at)
    {
        var seen = Sun.At(at).SeenFrom(place);
        Assert.InRange(seen.Azimuth.Degrees, 0, Math.BitDecrement(360));
        Assert.InRange(seen.AirlessAltitude.Degrees, -90, 90);
        Assert.InRange(seen.DistanceAu, 0.983, 1.017);
        Assert.InRange(seen.Semidiameter.Arcminutes, 15.7, 16.3);
    }

    // The Earth turns 15.04° an hour; nothing in the sky of the sun moves faster.
    [Property]
    public void The_altitude_has_no_jumps(Place place, Instant at)
    {
        var step = Duration.FromSeconds(1);
        var moved = Sun.At(at + step).SeenFrom(place).AirlessAltitude - Sun.At(at).SeenFrom(place).AirlessAltitude;
        Assert.InRange(moved.Abs().Degrees, 0, 15.06 / 3600);
    }

    [Property]
    public void Events_are_where_the_altitude_passes_the_threshold(Place place, Instant from)
    {
        var window = new Interval(from, from + Duration.FromDays(1));
        var crossings = SunEvents.Of(window, place).RiseSet;
        foreach (var rising in crossings.Risings) Assert.InRange(ClimbThrough(place, rising), 0, 0.01);
        foreach (var setting in crossings.Settings) Assert.InRange(ClimbThrough(place, setting), -0.01, 0);
    }

    [Property(MaxTest = 40)]
    public void A_look_every_five_minutes_finds_no_event_more(Place place, Instant from)
    {
        var window = new Interval(from, from + Duration.FromDays(1));
        var above = Enumerable.Range(0, 289)
            .Select(i => Sun.At(from + Duration.FromMinutes(5 * i)).SeenFrom(place).AirlessAltitude >= SunEvents.CivilAltitude).ToList();
        var civil = SunEvents.Of(window, place).Civil;

        var seenRisings = above.Zip(above.Skip(1)).Count(pair => !pair.First && pair.Second);
        var seenSettings = above.Zip(above.Skip(1)).Count(pair => pair.First && !pair.Second);
        Assert.InRange(civil.Risings.Count, seenRisings, seenRisings + 1);
        Assert.Equal(seenRisings - seenSettings, civil.Risings.Count - civil.Settings.Count);
        if (civil.Status != SkyStatus.Events) Assert.All(above, isAbove => Assert.Equal(civil.Status == SkyStatus.AlwaysAbove, isAbove));
    }

    [Property(MaxTest = 40)]
    public void A_transit_is_the_highest_the_sun_comes(Place place, Instant from)
    {
        if (Math.Abs(place.Point.LatitudeDeg) > 89) return; // no highest there: declination outruns the turn of the Earth
        if (SunEvents.Of(new Interval(from, from + Duration.FromDays(1)), place).Transit is not { } transit) return;
        for (var hour = -12; hour <= 12; hour++)
        {
            var other = Sun.At(transit.At + Duration.FromHours(hour)).SeenFrom(place).AirlessAltitude;
            Assert.True(other <= transit.AirlessAltitude + Angle.FromDegrees(0.2), $"{place} {transit.At} {hour} h");
        }
    }

    // Degrees climbed from a second before to a second after; zero when the threshold is not between.
    private static double ClimbThrough(Place place, Instant at)
    {
        var second = Duration.FromSeconds(1);
        var before = (Sun.At(at - second).SeenFrom(place).AirlessAltitude - SunEvents.RiseSetAltitude).Degrees;
        var after = (Sun.At(at + second).SeenFrom(place).AirlessAltitude - SunEvents.RiseSetAltitude).Degrees;
        Assert.InRange(Math.Min(before, after), double.NegativeInfinity, 1e-8);
        Assert.InRange(Math.Max(before, after), -1e-8, double.PositiveInfinity);
        return after - before;
    }
}
