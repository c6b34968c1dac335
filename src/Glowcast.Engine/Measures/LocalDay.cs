using NodaTime;

namespace Glowcast.Engine.Measures;

/// <summary>The stretch of time that a local date stands for.</summary>
public static class LocalDay
{
    /// <summary>From midnight to midnight in a time zone (23 or 25 hours where clocks change), or, without one, 24 hours
    /// from local mean solar midnight: 00:00 UTC less 4 minutes per degree of east longitude.</summary>
    public static Interval Of(LocalDate date, GeoPoint place, DateTimeZone? zone)
    {
        if (zone is not null)
            return new Interval(zone.AtStartOfDay(date).ToInstant(), zone.AtStartOfDay(date.PlusDays(1)).ToInstant());
        const double secondsPerDegree = 240;
        var start = date.AtMidnight().InUtc().ToInstant() - Duration.FromSeconds(secondsPerDegree * place.LongitudeDeg);
        return new Interval(start, start + Duration.FromDays(1));
    }
}
