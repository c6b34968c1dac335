using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>What a balloon measured on its way up, as it was reported: nothing is left out or put right yet.</summary>
/// <param name="Format">The format it was read from, as users know it.</param>
/// <param name="Levels">In the order of the report.</param>
public sealed record Sounding(string Format, IReadOnlyList<SoundingLevel> Levels)
{
    /// <summary>Null where the report names none.</summary>
    public string? Station { get; init; }

    /// <summary>When the balloon flew, or the hour that the flight stands for; null where the report gives no full date.</summary>
    public Instant? At { get; init; }

    /// <summary>Day of the month and hour, where that is all the report says.</summary>
    public DayAndHour? DayAndHour { get; init; }

    /// <summary>Null where the report does not say.</summary>
    public GeoPoint? Place { get; init; }

    /// <summary>What the reader passed over, in sentences.</summary>
    public IReadOnlyList<string> PassedOver { get; init; } = [];

    /// <summary>When the balloon flew; a report with only a day and an hour is taken for the flight nearest to a moment.</summary>
    public Instant? AtNear(Instant moment) => At ?? DayAndHour?.NearestTo(moment);
}

/// <summary>A day of some month and an hour UTC of it, as weather messages date themselves.</summary>
public readonly record struct DayAndHour(int Day, int Hour)
{
    /// <summary>The nearest such moment; null where neither the month, nor the one before or after it, has that day.</summary>
    public Instant? NearestTo(Instant moment)
    {
        var (day, hour) = (Day, Hour);
        var month = moment.InUtc().Date.ToYearMonth();
        var candidates =
            from months in Enumerable.Range(-1, 3)
            let yearMonth = month.PlusMonths(months)
            where day <= yearMonth.Calendar.GetDaysInMonth(yearMonth.Year, yearMonth.Month)
            select yearMonth.OnDayOfMonth(day).AtMidnight().PlusHours(hour).InUtc().ToInstant();
        return candidates.OrderBy(instant => Duration.FromTicks(Math.Abs((instant - moment).TotalTicks))).Select(instant => (Instant?)instant).FirstOrDefault();
    }
}
