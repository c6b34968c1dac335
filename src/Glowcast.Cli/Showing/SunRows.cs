using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Cli.Showing;

/// <summary>The events of a day of the sun, in the order of a day.</summary>
internal static class SunRows
{
    public static IEnumerable<IReadOnlyList<string>> Of(DayOfSun day, Clock clock) =>
    [
        .. Rows("astronomical dawn", day.Astronomical, day.Astronomical.Risings, clock),
        .. Rows("nautical dawn", day.Nautical, day.Nautical.Risings, clock),
        .. Rows("civil dawn", day.Civil, day.Civil.Risings, clock),
        .. Rows("sunrise", day.RiseSet, day.RiseSet.Risings, clock),
        .. Transit(day, clock),
        .. Rows("sunset", day.RiseSet, day.RiseSet.Settings, clock),
        .. Rows("civil dusk", day.Civil, day.Civil.Settings, clock),
        .. Rows("nautical dusk", day.Nautical, day.Nautical.Settings, clock),
        .. Rows("astronomical dusk", day.Astronomical, day.Astronomical.Settings, clock),
    ];

    private static IEnumerable<IReadOnlyList<string>> Rows(string name, ThresholdCrossings crossings, IReadOnlyList<Instant> times, Clock clock) =>
        times.Count > 0
            ? times.Select<Instant, IReadOnlyList<string>>(time => [name, .. clock.Cells(time)])
            : [Row(name, WhyNone(crossings.Status), clock)];

    private static IEnumerable<IReadOnlyList<string>> Transit(DayOfSun day, Clock clock) => day.Transit is { } transit
        ? [[$"transit, {transit.AirlessAltitude.Degrees:0.0}° high", .. clock.Cells(transit.At)]]
        : [Row("transit", "none", clock)];

    private static string WhyNone(SkyStatus status) => status switch
    {
        SkyStatus.AlwaysAbove => "none: always above",
        SkyStatus.AlwaysBelow => "none: always below",
        _ => "none on this date",
    };

    // A reason stands in the first column of times, and the others stay empty.
    private static IReadOnlyList<string> Row(string name, string reason, Clock clock) =>
        [name, reason, .. Enumerable.Repeat("", clock.Headings.Count - 1)];
}
