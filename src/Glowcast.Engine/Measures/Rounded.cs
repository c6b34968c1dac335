using NodaTime;

namespace Glowcast.Engine.Measures;

/// <summary>Instants as they are written, rounded in one way everywhere: to the tenth of a second that answers give, and from that tenth to
/// the second. Whoever has only the answer, as the page has, so comes to the same second as whoever has the instant.</summary>
public static class Rounded
{
    /// <summary>To the nearest tenth of a second; a half goes to the later one.</summary>
    public static Instant ToTenths(Instant instant) => To(instant, NodaConstants.TicksPerSecond / 10);

    /// <summary>To the second nearest to its tenth; a half goes to the later one.</summary>
    public static Instant ToSeconds(Instant instant) => To(ToTenths(instant), NodaConstants.TicksPerSecond);

    /// <summary>To the minute nearest to its second; a half goes to the later one.</summary>
    public static Instant ToMinutes(Instant instant) => To(ToSeconds(instant), NodaConstants.TicksPerMinute);

    /// <summary>The same of the time on a clock.</summary>
    public static LocalDateTime ToMinutes(LocalDateTime clock) => ToMinutes(clock.InUtc().ToInstant()).InUtc().LocalDateTime;

    private static Instant To(Instant instant, long ticks)
    {
        var beyond = instant.ToUnixTimeTicks() + (ticks / 2);
        var within = beyond % ticks;
        return Instant.FromUnixTimeTicks(beyond - (within < 0 ? within + ticks : within));
    }
}
