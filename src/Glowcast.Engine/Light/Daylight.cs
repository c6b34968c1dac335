using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>The part of a day in which direct light can reach any ridge in sight.</summary>
internal static class Daylight
{
    // The sun's centre, airless, at the lookout. From 9000 m the sea horizon lets it through at −5°; civil twilight ends at −6°.
    public static readonly Angle Lowest = Angle.FromDegrees(-6);

    private static readonly Duration Step = Duration.FromMinutes(5);

    /// <summary>From the first to the last moment with the sun above −6°, to the next five minutes outwards; null when
    /// there is none.</summary>
    public static Interval? Of(Interval day, Place lookout)
    {
        Instant? first = null, last = null;
        for (var instant = day.Start; instant <= day.End; instant += Step)
        {
            if (Sun.At(instant).SeenFrom(lookout).AirlessAltitude < Lowest) continue;
            first ??= instant;
            last = instant;
        }
        if (first is not { } start || last is not { } end) return null;
        return new Interval(Instant.Max(day.Start, start - Step), Instant.Min(day.End, end + Step));
    }
}
