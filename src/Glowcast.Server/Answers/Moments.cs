using Glowcast.Engine.Measures;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Answers;

/// <summary>Instants as answers write them.</summary>
public static class Moments
{
    private static readonly InstantPattern ToTenths = InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss.f'Z'");

    private static readonly OffsetDateTimePattern LocalToSeconds = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:sso<+HH:mm>");

    /// <summary>UTC to a tenth of a second, rounded.</summary>
    public static string Utc(Instant instant) => ToTenths.Format(Rounded.ToTenths(instant));

    public static string? Utc(Instant? instant) => instant is { } given ? Utc(given) : null;

    /// <summary>Local to a second, with its offset from UTC; null where no time zone is known.</summary>
    public static string? Local(Instant instant, DateTimeZone? zone) => zone is null
        ? null
        : LocalToSeconds.Format(Rounded.ToSeconds(instant).InZone(zone).ToOffsetDateTime());

    public static string? Local(Instant? instant, DateTimeZone? zone) => instant is { } given ? Local(given, zone) : null;
}
