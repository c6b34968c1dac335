using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>The days and hours that are wanted of a season.</summary>
public sealed record SeasonFilter
{
    public static SeasonFilter All { get; } = new();

    /// <summary>Empty for every day of the week.</summary>
    public IReadOnlyList<IsoDayOfWeek> Weekdays { get; init; } = [];

    /// <summary>Null for both halves of the day.</summary>
    public DayHalf? Half { get; init; }

    /// <summary>No window may begin earlier, by the clocks of the lookout.</summary>
    public LocalTime NotBefore { get; init; } = LocalTime.Midnight;

    /// <summary>Nor later.</summary>
    public LocalTime NotAfter { get; init; } = LocalTime.MaxValue;

    /// <summary>The dates of a range, both ends included, that fall on a day wanted.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The range is empty, or longer than five years.</exception>
    public IReadOnlyList<LocalDate> DatesOf(LocalDate from, LocalDate to)
    {
        var count = Period.DaysBetween(from, to) + 1;
        return count is >= 1 and <= Season.MostDays
            ? [.. Enumerable.Range(0, count).Select(i => from.PlusDays(i)).Where(date => Weekdays.Count == 0 || Weekdays.Contains(date.DayOfWeek))]
            : throw new ArgumentOutOfRangeException(nameof(to), to, $"A season has 1 to {Season.MostDays} days; from {from} to {to} there are {count}.");
    }

    internal bool Keeps(SeasonWindow window) =>
        (Half is null || window.Half == Half) && window.Begins.TimeOfDay >= NotBefore && window.Begins.TimeOfDay <= NotAfter;

    internal static string WhyNone(IReadOnlyList<SeasonWindow> windows)
    {
        var pattern = NodaTime.Text.LocalTimePattern.CreateWithInvariantCulture("HH:mm");
        return $"Its light comes at {string.Join(" and ", windows.Select(window => pattern.Format(Rounded.ToMinutes(window.Begins).TimeOfDay)))}, outside the hours asked for.";
    }
}
