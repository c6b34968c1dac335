using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>The moon over a lookout at one moment.</summary>
/// <param name="AgeDays">Since new moon, to half a day: by the difference of right ascension, at the mean pace of 29.53 days.</param>
/// <param name="LitShare">Of its disc.</param>
/// <param name="AltitudeDeg">Airless, of its centre.</param>
/// <param name="InSpan">It stands above the horizontal, on a bearing of the span.</param>
public sealed record MoonThen(double AgeDays, double LitShare, double AltitudeDeg, Azimuth Bearing, bool InSpan)
{
    private const double SynodicDays = 29.530589;

    public bool IsUp => AltitudeDeg > 0;

    /// <summary>Its lit share grows from night to night.</summary>
    public bool IsWaxing => AgeDays < SynodicDays / 2;

    public static MoonThen Of(Instant at, Place lookout, BearingSpan span)
    {
        ArgumentNullException.ThrowIfNull(span);
        var moon = Moon.At(at);
        var seen = moon.SeenFrom(lookout);
        var ahead = Azimuth.FromRadians(moon.RightAscension.Radians - moon.Sun.RightAscension.Radians).Degrees;
        var altitude = seen.AirlessAltitude.Degrees;
        return new MoonThen(SynodicDays * ahead / 360, moon.IlluminatedFraction, altitude, seen.Azimuth, altitude > 0 && span.Contains(seen.Azimuth));
    }
}
