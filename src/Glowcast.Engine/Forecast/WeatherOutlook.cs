using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Lays windows into the weather of model files: the beam to the left, middle and right of the ridge, and the deck by the hour.</summary>
/// <param name="weather">The files.</param>
/// <param name="ridge">Lit places of the ridge, at least one.</param>
/// <param name="lookout">The lookout's eye.</param>
internal sealed class WeatherOutlook(WeatherFiles weather, IReadOnlyList<Place> ridge, Place lookout)
{
    private const int MostSamples = 13;
    private static readonly Duration ShortestSample = Duration.FromMinutes(1);
    private static readonly Duration Before = Duration.FromHours(6);
    private static readonly Duration After = Duration.FromHours(3);
    private static readonly Duration Hour = Duration.FromHours(1);

    /// <summary>Refraction near the ground varies from day to day between these, the usual one in the middle.</summary>
    private static readonly double[] RefractionKs = [0, 0.13, 0.25];

    /// <summary>Upper limb, centre and lower limb of the disc.</summary>
    private static readonly Angle[] DiscHeights = [Angle.FromDegrees(0.27), Angle.Zero, Angle.FromDegrees(-0.27)];

    /// <returns>One for each window; null where the files do not reach it.</returns>
    public static IReadOnlyList<WindowWeather?> Of(WeatherFiles? weather, IReadOnlyList<Interval> windows, Scene scene)
    {
        if (weather is null) return [.. windows.Select(_ => (WindowWeather?)null)];
        var outlook = new WeatherOutlook(weather, PartsOf(scene), scene.Lookout);
        return [.. windows.Select(outlook.At)];
    }

    /// <summary>The crest at the left, in the middle and at the right.</summary>
    private static IReadOnlyList<Place> PartsOf(Scene scene)
    {
        var crest = scene.Patches.Where(patch => patch.Role == PatchRole.Crest).OrderBy(patch => patch.Column).ToList();
        return [.. new[] { 0, crest.Count / 2, crest.Count - 1 }.Distinct().Where(i => i >= 0 && i < crest.Count).Select(i => crest[i].Ground)];
    }

    private WindowWeather? At(Interval window)
    {
        var (minutes, beams) = (new List<BeamMinute>(), new List<(double K, BeamThroughCloud Beam)>());
        CloudAhead? last = null;
        var about = AboutOf(window);
        var fieldsAt = FieldsAbout(about);
        foreach (var instant in SamplesOf(window))
        {
            if (BeamsAt(instant, about, fieldsAt) is not { } found) continue;
            last = found.Ahead;
            beams.AddRange(found.Beams);
            minutes.Add(new BeamMinute(instant, found.Beams.Average(beam => beam.Beam.ExpectedShare)));
        }
        var hours = HoursOf(window);
        if (last is null && hours.Count == 0) return null;
        var byK = beams.GroupBy(beam => beam.K).Select(group => group.Average(beam => beam.Beam.ExpectedShare)).ToList();
        var deck = hours.Count == 0 ? (Chance?)null : DeckOf(hours, window);
        return new WindowWeather(
            Capped(minutes.Count == 0 ? null : minutes.Average(minute => minute.Share)), Capped(byK.Count == 0 ? null : byK.Min()), Capped(byK.Count == 0 ? null : byK.Max()),
            Capped(deck?.Deck), Capped(deck?.Above), beams.Select(beam => beam.Beam.Worst).OfType<CloudCrossing>().MaxBy(worst => worst.OpticalDepth),
            last?.Run.Reference ?? hours[0].Run.Reference, last?.Bracket.Step ?? hours[0].Bracket.Step,
            beams.Where(beam => !beam.Beam.IsWhole).Select(beam => (Length?)beam.Beam.EndsAt).Min(), minutes, hours);
    }

    private static double? Capped(double? chance) => chance is { } known ? WindowWeather.Capped(known) : null;

    private static IEnumerable<Instant> SamplesOf(Interval window)
    {
        var count = (int)Math.Clamp(window.Duration / ShortestSample, 1, MostSamples - 1);
        return Enumerable.Range(0, count + 1).Select(i => window.Start + (window.Duration * ((double)i / count)));
    }

    private (CloudAhead Ahead, List<(double K, BeamThroughCloud Beam)> Beams)? BeamsAt(
        Instant instant, IReadOnlyList<GeoPoint> about, Func<WeatherRun, Instant, CloudFields> fieldsAt)
    {
        var sun = Sun.At(instant);
        var beams = new List<(double, BeamThroughCloud)>();
        if (CloudAhead.Of(weather.Runs, instant, about, fieldsAt) is not { } ahead) return null;
        foreach (var place in ridge)
        {
            var seen = sun.SeenFrom(place);
            var altitude = Refraction.ToApparent(seen.AirlessAltitude, place.Height);
            var track = ahead.Towards(place.Point, seen.Azimuth);
            foreach (var (k, disc) in from k in RefractionKs from disc in DiscHeights select (k, disc))
            {
                var beam = track.Along(new SunwardBeam(place.Height, altitude + disc, k));
                // What the sea hides is not in the way of cloud.
                if (beam.End != BeamEnd.Sea) beams.Add((k, beam));
            }
        }
        return beams.Count == 0 ? null : (ahead, beams);
    }

    /// <summary>The sun's bearing at both ends of the window, from all parts of the ridge: the beams lie between.</summary>
    private List<GeoPoint> AboutOf(Interval window) =>
    [
        .. from place in ridge
           from instant in new[] { window.Start, window.End }
           from point in CloudTrack.Places(place.Point, Sun.At(instant).SeenFrom(place).Azimuth)
           select point,
    ];

    /// <summary>Each hour of a run is cut out once.</summary>
    private static Func<WeatherRun, Instant, CloudFields> FieldsAbout(IReadOnlyList<GeoPoint> about)
    {
        var known = new Dictionary<(WeatherRun, Instant), CloudFields>();
        return (run, time) => known.TryGetValue((run, time), out var fields) ? fields : known[(run, time)] = new CloudFields(run, time, about);
    }

    private List<ModelProfile> HoursOf(Interval window)
    {
        var hours = new List<ModelProfile>();
        for (var at = window.Start - Before; at <= window.End + After; at += Hour)
            if (weather.ProfileAt(lookout.Point, at) is { } profile) hours.Add(profile);
        return hours;
    }

    private readonly record struct Chance(double Deck, double Above);

    /// <summary>Within an hour of the window, as models are often an hour off.</summary>
    private Chance? DeckOf(List<ModelProfile> hours, Interval window)
    {
        var near = hours.FindAll(hour => hour.At >= window.Start - Hour && hour.At <= window.End + Hour);
        if (near.Count == 0) return null;
        var deck = near.Average(hour => DeckChances.Of(hour.Class));
        return new Chance(deck, near.Average(hour => DeckChances.Of(hour.Class) * AboveShare(hour.Diagnosis.LookoutAt(lookout.Height).Verdict)));
    }

    /// <summary>Where no deck shows, one that the model misses may still lie below.</summary>
    private static double AboveShare(LookoutVerdict verdict) => verdict switch
    {
        LookoutVerdict.Above => 1,
        LookoutVerdict.At or LookoutVerdict.NoDeck => 0.5,
        _ => 0,
    };
}
