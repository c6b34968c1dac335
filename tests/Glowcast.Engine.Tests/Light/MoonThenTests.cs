using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

public class MoonThenTests
{
    private const double SynodicDays = 29.530589;

    private static readonly Place Lookout = Place.FromDegrees(46.5, 7.5, 1400);

    private static readonly BearingSpan West = BearingSpan.FromDegrees(250, 310);

    // New moon 17 February 2026 12:01 UTC, full moon 3 March 2026 11:38 UTC (total eclipse): Espenak & Meeus, Five Millennium
    // Canon of Solar Eclipses and of Lunar Eclipses.
    [Theory]
    [InlineData("2026-02-17T12:01:00Z", 0, 0)]
    [InlineData("2026-03-03T11:38:00Z", SynodicDays / 2, 1)]
    public void The_age_is_counted_from_new_moon(string at, double ageDays, double litShare)
    {
        var moon = MoonThen.Of(NodaTime.Text.InstantPattern.ExtendedIso.Parse(at).Value, Lookout, West);
        Assert.Equal(0, Math.IEEERemainder(moon.AgeDays - ageDays, SynodicDays), 0.5);
        Assert.Equal(litShare, moon.LitShare, 0.01);
    }

    [Fact]
    public void It_stands_in_the_span_only_above_the_horizon_and_on_its_bearings()
    {
        var night = Enumerable.Range(0, 24).Select(hour => MoonThen.Of(Instant.FromUtc(2026, 3, 3, 0, 0) + Duration.FromHours(hour), Lookout, West)).ToList();
        Assert.Contains(night, moon => moon.InSpan);
        Assert.All(night, moon => Assert.Equal(moon.IsUp && West.Contains(moon.Bearing), moon.InSpan));
    }
}
