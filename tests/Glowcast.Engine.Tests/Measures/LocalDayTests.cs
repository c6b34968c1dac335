using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Tests.Measures;

public class LocalDayTests
{
    private static readonly Instant NoonUtc = Instant.FromUtc(2026, 2, 14, 12, 0);

    // Local mean solar time is UTC and 4 minutes for each degree of east longitude: the definition.
    [Theory]
    [InlineData(0, 12, 0)]
    [InlineData(15, 13, 0)]
    [InlineData(-71.25, 7, 15)]
    [InlineData(172.5, 23, 30)]
    public void Without_a_time_zone_clocks_go_by_the_mean_sun(double longitudeDeg, int hour, int minute) =>
        Assert.Equal(new LocalDateTime(2026, 2, 14, hour, minute), LocalDay.ClockAt(NoonUtc, GeoPoint.FromDegrees(44, longitudeDeg), null));

    [Theory]
    [InlineData(-71.25)]
    [InlineData(0)]
    [InlineData(140)]
    public void A_day_without_a_time_zone_begins_and_ends_at_midnight_of_its_own_clock(double longitudeDeg)
    {
        var place = GeoPoint.FromDegrees(44, longitudeDeg);
        var date = new LocalDate(2026, 2, 14);
        var day = LocalDay.Of(date, place, null);
        Assert.Equal(date.AtMidnight(), LocalDay.ClockAt(day.Start, place, null));
        Assert.Equal(date.PlusDays(1).AtMidnight(), LocalDay.ClockAt(day.End, place, null));
    }

    // IANA tzdb: New York is at UTC−5 in February; Samoa's clocks left out 30 December 2011.
    [Fact]
    public void With_a_time_zone_clocks_go_by_it() => Assert.Equal(
        new LocalDateTime(2026, 2, 14, 7, 0), LocalDay.ClockAt(NoonUtc, GeoPoint.FromDegrees(44, 100), DateTimeZoneProviders.Tzdb["America/New_York"]));

    [Fact]
    public void A_date_that_the_clocks_left_out_is_refused_and_the_day_before_it_is_a_day_long()
    {
        var (apia, place) = (DateTimeZoneProviders.Tzdb["Pacific/Apia"], GeoPoint.FromDegrees(-13.8, -171.8));
        Assert.Throws<BadInputException>(() => LocalDay.Of(new LocalDate(2011, 12, 30), place, apia));
        Assert.Equal(Duration.FromDays(1), LocalDay.Of(new LocalDate(2011, 12, 29), place, apia).Duration);
    }
}
