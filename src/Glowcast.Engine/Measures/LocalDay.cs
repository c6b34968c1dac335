using NodaTime;

namespace Glowcast.Engine.Measures;

/// <summary>The stretch of time that a local date stands for.</summary>
public static class LocalDay
{
    private const double SecondsPerDegree = 240;

    /// <summary>From midnight to midnight in a time zone (23 or 25 hours where clocks change), or, without one, 24 hours
    /// from local mean solar midnight: 00:00 UTC less 4 minutes per degree of east longitude.</summary>
    /// <exception cref="BadInputException">The zone skipped that date.</exception>
    public static Interval Of(LocalDate date, GeoPoint place, DateTimeZone? zone)
    {
        if (zone is not null) return new Interval(MidnightOf(date, zone), NextMidnight(date, zone));
        var start = date.AtMidnight().InUtc().ToInstant() - Duration.FromSeconds(SecondsPerDegree * place.LongitudeDeg);
        return new Interval(start, start + Duration.FromDays(1));
    }

    /// <summary>What the clocks of a place say: of its time zone, or of local mean solar time.</summary>
    public static LocalDateTime ClockAt(Instant instant, GeoPoint place, DateTimeZone? zone) => zone is not null
        ? instant.InZone(zone).LocalDateTime
        : (instant + Duration.FromSeconds(SecondsPerDegree * place.LongitudeDeg)).InUtc().LocalDateTime;

    /// <summary>The moment at which the clocks of a place say so; of two, the first; where they skip it, as long after the gap.</summary>
    public static Instant At(LocalDateTime clock, GeoPoint place, DateTimeZone? zone) => zone is not null
        ? clock.InZoneLeniently(zone).ToInstant()
        : clock.InUtc().ToInstant() - Duration.FromSeconds(SecondsPerDegree * place.LongitudeDeg);

    private static Instant MidnightOf(LocalDate date, DateTimeZone zone)
    {
        try
        {
            return zone.AtStartOfDay(date).ToInstant();
        }
        catch (SkippedTimeException)
        {
            throw new BadInputException("date", $"{Written(date)} does not exist in {zone.Id}: its clocks skipped that day. Take the day before or after.");
        }
    }

    // The day after may be one that the zone skipped; a day then ends where the one after that begins.
    private static Instant NextMidnight(LocalDate date, DateTimeZone zone)
    {
        try
        {
            return zone.AtStartOfDay(date.PlusDays(1)).ToInstant();
        }
        catch (SkippedTimeException)
        {
            return zone.AtStartOfDay(date.PlusDays(2)).ToInstant();
        }
    }

    private static string Written(LocalDate date) => NodaTime.Text.LocalDatePattern.Iso.Format(date);
}
