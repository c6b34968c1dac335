using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>How bright the lit ridge is over a stretch of time, by its two parts: the sun's beam on ground that faces it, and
/// the clear sky on open level ground.</summary>
/// <remarks>
/// Worked out by the minute for one place that stands for the ridge, the crest of median height, with the whole disc of the
/// sun; between minutes the logarithm runs straight, within 0.01 stop while the
/// sun stands above the horizontal and 0.12 stop at −1.5° (docs/model.md, L11). Terrain is not asked: whether
/// the ridge is lit at all is the light chart's to say. Immutable.
/// </remarks>
public sealed class RidgeBrightness
{
    private const double MinuteS = 60;

    private readonly SunTrack track;
    // Without a measured value the haze of a clear day may as well be half or twice the one assumed.
    private const double HazeFactor = 2;

    private readonly RidgeLight[] minutes;
    private readonly Haze haze;
    private readonly Air? air;
    private readonly Moonlight? moon;

    private RidgeBrightness(Place crest, SunTrack track, RidgeLight[] minutes, Haze haze, Air? air, Moonlight? moon) =>
        (Crest, this.track, this.minutes, this.haze, this.air, this.moon) = (crest, track, minutes, haze, air, moon);

    /// <summary>The place that stands for the ridge.</summary>
    public Place Crest { get; }

    /// <param name="time">The stretch that will be asked for; earlier and later moments take its ends.</param>
    /// <param name="air">At the lookout; standard when left out.</param>
    /// <returns>Null where the scene has no ridge.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Such air cannot stand at the lookout or on the ridge.</exception>
    public static RidgeBrightness? Of(Scene scene, SunTrack time, Haze haze, Air? air = null)
    {
        ArgumentNullException.ThrowIfNull(scene);
        ArgumentNullException.ThrowIfNull(time);
        return MedianCrest(scene) is { } crest ? Of(crest, time, haze, air?.MovedTo(scene.Lookout.Height, crest.Height)) : null;
    }

    /// <summary>Under the moon.</summary>
    /// <param name="time">The moon's way (<see cref="Moonlight.TrackFrom"/>).</param>
    internal static RidgeBrightness? Of(Scene scene, SunTrack time, Haze haze, Air? air, Moonlight moon) =>
        MedianCrest(scene) is { } crest ? Of(crest, time, haze, air?.MovedTo(scene.Lookout.Height, crest.Height), moon) : null;

    /// <summary>For a ridge that one place stands for.</summary>
    /// <param name="air">At that place.</param>
    /// <inheritdoc cref="Of(Scene, SunTrack, Haze, Air?)"/>
    public static RidgeBrightness Of(Place crest, SunTrack time, Haze haze, Air? air = null) => Of(crest, time, haze, air, null);

    private static RidgeBrightness Of(Place crest, SunTrack time, Haze haze, Air? air, Moonlight? moon)
    {
        ArgumentNullException.ThrowIfNull(time);
        var frame = new ObserverFrame(crest);
        var minutes = new RidgeLight[(int)Math.Ceiling(time.LengthS / MinuteS) + 1];
        for (var minute = 0; minute < minutes.Length; minute++)
            minutes[minute] = Under(moon, LightAt(frame.Toward(time.EarthFixedAu(minute * MinuteS)), crest.Height, haze, air));
        return new RidgeBrightness(crest, time, minutes, haze, air, moon);
    }

    public RidgeLight At(Instant instant)
    {
        var minute = Math.Clamp(track.SecondsAt(instant) / MinuteS, 0, minutes.Length - 1);
        var before = Math.Min((int)minute, Math.Max(0, minutes.Length - 2));
        return RidgeLight.Between(minutes[before], minutes[Math.Min(before + 1, minutes.Length - 1)], minute - before);
    }

    /// <summary>How far the brightness may be off [stops, one standard deviation]: half the difference between half and twice
    /// the haze, and the sky light's own uncertainty by its share.</summary>
    public double UncertaintyStopsAt(Instant instant)
    {
        var sun = new ObserverFrame(Crest).Toward(track.EarthFixedAu(track.SecondsAt(instant)));
        var (clearer, hazier) = (Lit(1 / HazeFactor), Lit(HazeFactor));
        var ofHaze = Math.Log2(clearer.TotalLux / hazier.TotalLux) / 2;
        var light = At(instant);
        var ofSky = SkyLight.UncertaintyStops(AirlessOf(sun)) * light.DiffuseLux / light.TotalLux;
        return double.Hypot(ofHaze, ofSky);

        RidgeLight Lit(double factor) => Under(moon, LightAt(sun, Crest.Height, new Haze(haze.Beta * factor, haze.Alpha, haze.ScaleHeight), air));
    }

    private static RidgeLight Under(Moonlight? moon, RidgeLight sun) => moon is null
        ? sun
        : sun with { DirectLux = moon.OfSun * sun.DirectLux, DiffuseLux = moon.OfSun * (sun.DiffuseLux + moon.OtherSkyLux) };

    /// <summary>The beam on ground of other heights, under the sun that <see cref="Crest"/> has then.</summary>
    internal BeamByHeight BeamByHeightAt(double seconds, double lowestM, double highestM)
    {
        var sun = new ObserverFrame(Crest).Toward(track.EarthFixedAu(seconds));
        var distanceAu = Math.Sqrt((sun.East * sun.East) + (sun.North * sun.North) + (sun.Up * sun.Up));
        return new BeamByHeight(AirlessOf(sun), lowestM, highestM, haze, height => air?.MovedTo(Crest.Height, height), distanceAu, moon?.OfSun ?? 1);
    }

    /// <summary>By how many stops the lit ridge is brighter at the second moment.</summary>
    public double StopsFrom(Instant first, Instant second) => Math.Log2(At(second).TotalLux / At(first).TotalLux);

    /// <summary>How fast it brightens on average between two moments.</summary>
    /// <exception cref="ArgumentException">The moments are the same.</exception>
    public BrightnessRate RateBetween(Instant first, Instant second)
    {
        if (first == second) throw new ArgumentException("A rate needs two moments.", nameof(second));
        var (a, b) = (At(first), At(second));
        var inMinutes = (second - first).TotalMinutes;
        return new BrightnessRate(
            Math.Log2(b.DirectLux / a.DirectLux) / inMinutes, Math.Log2(b.DiffuseLux / a.DiffuseLux) / inMinutes,
            Math.Log2(b.TotalLux / a.TotalLux) / inMinutes);
    }

    /// <param name="sun">From the place to the sun [AU].</param>
    /// <param name="air">At the place.</param>
    internal static RidgeLight LightAt((double East, double North, double Up) sun, Length height, Haze haze, Air? air)
    {
        var airless = AirlessOf(sun);
        var distanceAu = Math.Sqrt((sun.East * sun.East) + (sun.North * sun.North) + (sun.Up * sun.Up));
        var beam = DirectBeam.At(Refraction.ToApparent(airless, height, air), height, haze, air, distanceAu: distanceAu);
        return new RidgeLight(beam.NormalIlluminanceLux, SkyLight.IlluminanceLux(airless), beam.Colour);
    }

    private static Angle AirlessOf((double East, double North, double Up) sun) =>
        Angle.FromRadians(Math.Atan2(sun.Up, Math.Sqrt((sun.East * sun.East) + (sun.North * sun.North))));

    /// <summary>The place that stands for a scene's ridge; null where it shows none.</summary>
    internal static Place? MedianCrest(Scene scene)
    {
        var crest = scene.Patches.Where(patch => patch.Role == PatchRole.Crest).OrderBy(patch => patch.Ground.Height).ToList();
        return crest.Count > 0 ? crest[crest.Count / 2].Ground : null;
    }
}
