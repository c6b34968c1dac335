using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>The moon of a day as a light over a scene (docs/model.md, L22).</summary>
/// <remarks>
/// It is charted as the sun is, with the moon put on its bearing and altitude at the lookout at the sun's distance: ground 100 km off sees it 0.015° elsewhere, and its disc is as wide as the
/// sun's to a twelfth. Its beam is the sun's by one quotient, and so is the sky that it lights, with the light of the night sky besides. The surge of the full moon is left out.
/// </remarks>
internal sealed record Moonlight(Interval Time, IReadOnlyList<Stretch> Dark, double OfSun)
{
    /// <summary>Of the night sky without moon or twilight, on level ground [lx]: airglow and starlight, to a factor two. From memory.</summary>
    public const double NightSkyLux = 0.001;

    // A thin crescent; its beam is lost in the light of the night sky.
    private const double LeastLux = 0.005;

    private const double LookS = 300;

    /// <summary>Nautical twilight over.</summary>
    private static readonly Angle DarkSun = Angle.FromDegrees(-12);

    // From 4500 m the sea horizon lets it through.
    private static readonly Angle LeastMoon = Angle.FromDegrees(-3);

    /// <summary>What the night sky adds, in the scale of the sun's light [lx].</summary>
    public double OtherSkyLux => NightSkyLux / OfSun;

    /// <summary>From the first to the last moment of the local day with the moon up and the sun over 12° down; null where there is none, or the moon too thin.</summary>
    public static Moonlight? Of(Interval day, Place lookout)
    {
        var looks = (int)Math.Ceiling(day.Duration.TotalSeconds / LookS) + 1;
        var stepS = day.Duration.TotalSeconds / (looks - 1);
        var dark = Stretch.Above(looks, stepS, look => Spare(day.Start + Duration.FromSeconds(look * stepS), lookout));
        if (dark.Count == 0) return null;
        var time = new Interval(day.Start + Duration.FromSeconds(dark[0].StartS), day.Start + Duration.FromSeconds(dark[^1].EndS));
        var moon = Moon.At(day.Start + Duration.FromSeconds((dark[0].StartS + dark[0].EndS) / 2));
        var lux = MoonBeam.OutsideLux(moon.PhaseAngle, moon.SeenFrom(lookout).Distance);
        if (lux < LeastLux) return null;
        var beginsS = dark[0].StartS;
        return new Moonlight(time, [.. dark.Select(stretch => new Stretch(stretch.StartS - beginsS, stretch.EndS - beginsS))], lux / DirectBeam.Outside.NormalIlluminanceLux);
    }

    /// <summary>The moon's way, at the sun's distance.</summary>
    public SunTrack TrackFrom(Place lookout)
    {
        var frame = new ObserverFrame(lookout);
        return SunTrack.Of(Time, seconds =>
        {
            var seen = Moon.At(Time.Start + Duration.FromSeconds(seconds)).SeenFrom(frame);
            return frame.EarthFixedAu(seen.Azimuth, seen.AirlessAltitude, 1);
        });
    }

    // Positive where it is dark and the moon is up [°].
    private static double Spare(Instant at, Place lookout)
    {
        var sun = DarkSun - Sun.At(at).SeenFrom(lookout).AirlessAltitude;
        return sun <= Angle.Zero ? sun.Degrees : Math.Min(sun.Degrees, (Moon.At(at).SeenFrom(lookout).AirlessAltitude - LeastMoon).Degrees);
    }
}
