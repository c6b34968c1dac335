using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>When the sun reaches the top of the deck, and how flat it grazes it. The deck has its own horizon: the ground
/// that stands out of it, and itself over the curved earth.</summary>
/// <param name="FirstSun">The first sun on any of the deck in view; null where none comes.</param>
/// <param name="HalfLit">When half of it is first lit; null where it never is.</param>
/// <param name="HalfShaded">When half of it has last lost the sun; null where it never has, or keeps it to the end of the day.</param>
public sealed record DeckLight(Place Middle, Instant? FirstSun, Instant? HalfLit, Instant? HalfShaded)
{
    private const double Half = 0.5;

    /// <summary>Null without a deck in view.</summary>
    public static DeckLight? Of(LightChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var (scene, track) = (chart.Scene, chart.Track);
        var patches = Enumerable.Range(0, scene.Patches.Count).Where(i => IsDeck(scene, scene.Patches[i])).ToList();
        if (patches.Count == 0) return null;
        var share = ShareOverTime.Of(patches.Select(i => (chart.SunStretches(i), scene.Patches[i].Weight)), track.LengthS);
        var first = patches.SelectMany(chart.SunStretches).Select(stretch => (double?)stretch.StartS).Min();
        var lit = share.AtLeast(Half);
        return new DeckLight(
            scene.Patches[patches[patches.Count / 2]].Ground,
            first is { } seconds ? track.At(seconds) : null,
            lit.Count > 0 ? track.At(lit[0].StartS) : null,
            lit.Count > 0 && lit[^1].EndS < track.LengthS ? track.At(lit[^1].EndS) : null);
    }

    /// <summary>The sun over the deck at a moment.</summary>
    public GrazingSun At(Instant instant, Haze haze)
    {
        var sun = Sun.At(instant).SeenFrom(Middle);
        var altitude = Refraction.ToApparent(sun.AirlessAltitude, Middle.Height);
        var lux = altitude > Angle.Zero ? DirectBeam.At(altitude, Middle.Height, haze, distanceAu: sun.DistanceAu).NormalIlluminanceLux * altitude.Sin() : 0;
        return new GrazingSun(altitude, lux);
    }

    private static bool IsDeck(Scene scene, GroundPatch patch) =>
        scene.DeckTop is { } top && patch.Role == PatchRole.Valley && patch.Ground.Height.Metres <= top.Metres + DeckSurface.ToleranceM;
}

/// <summary>Sun on a level deck.</summary>
/// <param name="Altitude">Apparent, over the deck: the angle at which it grazes.</param>
/// <param name="DirectLux">The beam's light on the level deck where nothing shades it.</param>
public readonly record struct GrazingSun(Angle Altitude, double DirectLux);
