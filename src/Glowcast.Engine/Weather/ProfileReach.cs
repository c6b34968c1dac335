using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>How far off in space and time a profile is from where and when it is asked about. A profile is one place and
/// one time; beyond 100 km or six hours it tells less (common practice).</summary>
/// <param name="Distance">Null where the profile's place or the lookout's is not known.</param>
/// <param name="Age">Null where the time of either is not known; never negative.</param>
public sealed record ProfileReach(Length? Distance, Duration? Age)
{
    public static readonly Length Near = Length.FromKilometres(100);

    public static readonly ProfileReach Unknown = new(null, null);

    public static readonly Duration Fresh = Duration.FromHours(6);

    /// <param name="lookout">Null where nothing is known of it.</param>
    /// <param name="moment">That the answer is for; null where nothing is known of it.</param>
    public static ProfileReach Of(Sounding sounding, GeoPoint? lookout, Instant? moment)
    {
        ArgumentNullException.ThrowIfNull(sounding);
        var flown = moment is { } asked ? sounding.AtNear(asked) : null;
        return new ProfileReach(
            sounding.Place is { } station && lookout is { } here ? Geodesic.Between(station, here).Distance : null,
            flown is { } then ? Duration.FromTicks(Math.Abs((moment!.Value - then).TotalTicks)) : null);
    }

    /// <summary>By how many classes the likelihood is lowered.</summary>
    public int ClassesLost => (Distance > Near ? 1 : 0) + (Age > Fresh ? 1 : 0);
}
