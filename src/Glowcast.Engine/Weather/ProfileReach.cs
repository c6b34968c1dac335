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

    /// <summary>What is to be said of it.</summary>
    public IEnumerable<string> Sentences()
    {
        yield return Distance switch
        {
            { } far when far > Near => $"The profile was taken {far.Kilometres:0} km away; more than {Near.Kilometres:0} km lowers the class by one (common practice).",
            { } near => $"The profile was taken {near.Kilometres:0} km away. Another valley can have another deck.",
            null => "How far away the profile was taken is not known. Another valley can have another deck.",
        };
        yield return Age switch
        {
            { } old when old > Fresh => $"The profile is {Long(old)} from the time asked for; more than {Fresh.TotalHours:0} h lowers the class by one (common practice).",
            { } fresh => $"The profile is {fresh.TotalHours:0.#} h from the time asked for.",
            null => "How old the profile is at the time asked for is not known.",
        };

        static string Long(Duration age) => age.TotalDays < 3 ? $"{age.TotalHours:0} h" : $"{age.TotalDays:0} days";
    }
}
