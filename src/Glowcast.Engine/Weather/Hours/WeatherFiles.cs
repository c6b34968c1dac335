using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>Weather by the hour: what a set of files says of any place and time in its reach.</summary>
public sealed class WeatherFiles
{
    private readonly Dictionary<(WeatherRun, GeoPoint, HumidityRule), ModelProfiles> profiles = [];

    public WeatherFiles(GribSet set)
    {
        Set = set;
        Runs = WeatherRun.Of(set);
    }

    public GribSet Set { get; }

    /// <summary>The newest first.</summary>
    public IReadOnlyList<WeatherRun> Runs { get; }

    /// <summary>The profile of the newest run that reaches the place and time; null where none does.</summary>
    public ModelProfile? ProfileAt(GeoPoint point, Instant instant, HumidityRule rule = HumidityRule.ByProducer) =>
        Runs.Select(run => ProfilesOf(run, point, rule).At(instant)).FirstOrDefault(profile => profile is not null);

    /// <summary>What cloud leaves of the beam to a place.</summary>
    /// <param name="ridge">The lit place.</param>
    /// <param name="altitude">Apparent, of the sun as seen from it.</param>
    /// <param name="refractionK">The share of the earth's curvature that the beam follows.</param>
    /// <returns>Null where no run reaches the place and time.</returns>
    public (BeamThroughCloud Beam, WeatherRun Run, TimeBracket Bracket)? BeamTo(Place ridge, Azimuth azimuth, Angle altitude, Instant instant, double refractionK)
    {
        if (CloudAhead.Of(Runs, instant, [.. CloudTrack.Places(ridge.Point, azimuth)]) is not { } ahead) return null;
        var beam = ahead.Towards(ridge.Point, azimuth).Along(new SunwardBeam(ridge.Height, altitude, refractionK));
        return (beam, ahead.Run, ahead.Bracket);
    }

    /// <summary>From when to when there is cloud to follow a beam through; null without any.</summary>
    public Interval? CloudReach => ReachOf(CloudFields.IsIn);

    /// <summary>From when to when profiles can be had, over all runs; null without any.</summary>
    public Interval? Reach => ReachOf(ModelProfiles.HasAir);

    private Interval? ReachOf(Func<WeatherRun, Instant, bool> isKnown)
    {
        var times = Runs.SelectMany(run => run.Times.Where(time => isKnown(run, time))).Order().ToList();
        return times.Count == 0 ? null : new Interval(times[0], times[^1]);
    }

    private ModelProfiles ProfilesOf(WeatherRun run, GeoPoint point, HumidityRule rule) =>
        profiles.TryGetValue((run, point, rule), out var known) ? known : profiles[(run, point, rule)] = new ModelProfiles(run, point, rule);
}
