using Glowcast.Engine.Measures;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Field.Words;

/// <summary>Writes instants for people who plan one date: local time beside UTC where the time zone is known.</summary>
/// <param name="date">The date asked for; times of other dates say so.</param>
/// <param name="zone">Null where the day is reckoned by the sun; there is then no local time to write.</param>
internal sealed class Clock(LocalDate date, DateTimeZone? zone)
{
    private static readonly LocalTimePattern ToSeconds = LocalTimePattern.CreateWithInvariantCulture("HH:mm:ss");

    private static readonly LocalTimePattern ToMinutes = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    public DateTimeZone? Zone { get; } = zone;

    /// <summary>The headings over the cells of <see cref="Cells"/>.</summary>
    public IReadOnlyList<string> Headings => Zone is null ? ["UTC"] : ["local", "UTC"];

    /// <summary>Local time and UTC, or UTC alone, to the second.</summary>
    public IReadOnlyList<string> Cells(Instant? instant) => Zone is null ? [Utc(instant)] : [Local(instant, Zone), Utc(instant)];

    /// <summary>The same in a sentence: "06:45:00 local (11:45:00 UTC)".</summary>
    public string Say(Instant instant) => Zone is null ? $"{Utc(instant)} UTC" : $"{Local(instant, Zone)} local ({Utc(instant)} UTC)";

    /// <summary>To the minute nearest to its second: local time, or UTC where there is none.</summary>
    public string Short(Instant instant) => Short(instant, Zone ?? DateTimeZone.Utc);

    /// <summary>To the minute nearest to its second: local time and UTC, or UTC alone.</summary>
    public string ShortCells(Instant instant) => Zone is null ? Short(instant) : $"{Short(instant)}  {Short(instant, DateTimeZone.Utc)}";

    /// <summary>The headings over <see cref="ShortCells"/>.</summary>
    public string ShortHeadings => Zone is null ? "UTC" : "local  UTC";

    /// <summary>To the second: local time, or UTC where there is none.</summary>
    public string Time(Instant instant) => Local(instant, Zone ?? DateTimeZone.Utc);

    private static string Short(Instant instant, DateTimeZone zone) => ToMinutes.Format(Rounded.ToMinutes(instant).InZone(zone).TimeOfDay);

    private string Utc(Instant? instant) => Local(instant, DateTimeZone.Utc);

    private string Local(Instant? instant, DateTimeZone zone)
    {
        if (instant is not { } given) return "";
        var rounded = Rounded.ToSeconds(given).InZone(zone);
        var days = Period.DaysBetween(date, rounded.Date);
        return ToSeconds.Format(rounded.TimeOfDay) + (days == 0 ? "" : $" {days:+0;-0}d");
    }
}
