using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Field.Pictures;

/// <summary>Where days and the hours of their clocks stand in a panel of a season: days across, hours down.</summary>
/// <param name="place">The lookout, for clocks without a time zone.</param>
/// <param name="zone">Null for local mean solar time.</param>
internal sealed class SeasonScale(LocalDate from, LocalDate to, GeoPoint place, DateTimeZone? zone, double left, double top)
{
    public const double HoursHigh = 300;

    private const double PanelWide = 1098;
    private const double NarrowestDay = 3;
    private const double WidestDay = 26;

    public LocalDate From { get; } = from;

    public LocalDate To { get; } = to;

    public double Left { get; } = left;

    public double Top { get; } = top;

    public double DayWide { get; } = Math.Clamp(PanelWide / (Period.DaysBetween(from, to) + 1), NarrowestDay, WidestDay);

    public double Right => X(To.PlusDays(1));

    public double Bottom => Top + HoursHigh;

    public double X(LocalDate date) => Left + (Period.DaysBetween(From, date) * DayWide);

    public double Y(double hours) => Top + (HoursHigh * hours / 24);

    /// <summary>On the clock of the place [h], 0 and 24 where the instant belongs to the day before or after.</summary>
    public double HoursOf(Instant instant, LocalDate day)
    {
        var clock = LocalDay.ClockAt(instant, place, zone);
        return clock.Date < day ? 0 : clock.Date > day ? 24 : clock.TimeOfDay.NanosecondOfDay / (double)NodaConstants.NanosecondsPerHour;
    }

    /// <summary>The clocks go by another offset on this day's noon than on that of the day before.</summary>
    public bool ClocksChange(LocalDate date) =>
        zone is not null && date > From && OffsetAt(date) != OffsetAt(date.PlusDays(-1));

    private Offset OffsetAt(LocalDate date) => zone!.GetUtcOffset(date.At(new LocalTime(12, 0)).InZoneLeniently(zone).ToInstant());
}
