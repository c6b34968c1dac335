using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Server.Answers;

/// <summary>What the air does to the sun at one altitude, and how bright its light and the sky's are.</summary>
/// <param name="HeightM">Of the lit place.</param>
/// <param name="AirMass">Against the local vertical; null where the ray ends on the ground.</param>
/// <param name="AirMassSeaLevel">The same in columns of the whole air over the sea.</param>
/// <param name="Beam">Direct light on a surface that faces the sun; open horizon.</param>
/// <param name="SkyLux">Light of the sky alone on level ground, clear, at the sea.</param>
/// <param name="Phases">What is there by the sun's altitude over an open sea horizon, by the AMS Glossary's names.</param>
/// <param name="Moon">Null where no instant is asked for.</param>
public sealed record SkyAnswer(
    string? At, double HeightM, double? AzimuthDeg, double AirlessAltitudeDeg, double ApparentAltitudeDeg, double RefractionArcmin,
    double DipArcmin, double? AirMass, double? AirMassSeaLevel, BeamAnswer Beam, double SkyLux, double SkyStopsPerDegree,
    double SkyUncertaintyStops, IReadOnlyList<Phase> Phases, MoonAnswer? Moon)
{
    private static readonly Duration HalfMinute = Duration.FromSeconds(30);

    /// <summary>How fast the sky brightens, by the sun's own rate; negative where it darkens. Null where no instant is asked for.</summary>
    public double? SkyStopsPerMinute { get; init; }

    /// <param name="airless">Of the sun's centre.</param>
    public static SkyAnswer Of(Angle airless, Length height, Haze haze, Air? air) => Of(null, null, airless, Angle.FromDegrees(0.2666), 1, height, haze, air);

    public static SkyAnswer Of(Instant at, Place place, Haze haze, Air? air)
    {
        var sun = Sun.At(at).SeenFrom(place);
        return Of(at, sun.Azimuth, sun.AirlessAltitude, sun.Semidiameter, sun.DistanceAu, place.Height, haze, air) with
        {
            Moon = MoonAnswer.Of(at, place),
            SkyStopsPerMinute = SkyLight.StopsPerMinute(sun.AirlessAltitude, DegreesPerHour(at, place)),
        };
    }

    private static double DegreesPerHour(Instant at, Place place) =>
        (Sun.At(at + HalfMinute).SeenFrom(place).AirlessAltitude - Sun.At(at - HalfMinute).SeenFrom(place).AirlessAltitude).Degrees * 60;

    private static SkyAnswer Of(
        Instant? at, Azimuth? azimuth, Angle airless, Angle semidiameter, double distanceAu, Length height, Haze haze, Air? air)
    {
        var apparent = Refraction.ToApparent(airless, height, air);
        var dip = Refraction.Dip(height, Length.Zero);
        var isUp = apparent > -dip;
        return new SkyAnswer(
            Moments.Utc(at), height.Metres, azimuth?.Degrees, airless.Degrees, apparent.Degrees, (apparent - airless).Arcminutes, dip.Arcminutes,
            isUp ? Engine.Sky.AirMass.Relative(apparent, height) : null,
            isUp ? Engine.Sky.AirMass.InSeaLevelColumns(apparent, height, air) : null,
            BeamAnswer.Of(DirectBeam.At(apparent, height, haze, air, distanceAu: distanceAu), isUp),
            SkyLight.IlluminanceLux(airless), SkyLight.StopsPerDegree(airless), SkyLight.UncertaintyStops(airless),
            [.. Engine.Sky.Phases.Of(height, -dip, semidiameter, haze, air).Where(phase => phase.Value.Contains(airless)).Select(phase => phase.Key)], null);
    }
}

/// <summary>The direct beam.</summary>
/// <param name="NormalLux">On a surface that faces the sun; 0 when its centre is under the sea horizon.</param>
/// <param name="StopsLost">Against the sun outside the air; null when there is no beam.</param>
/// <param name="X">CIE 1931.</param>
/// <param name="CctK">Null for light redder than any glowing body.</param>
/// <param name="Duv">From the Planckian locus, positive on the green side.</param>
/// <param name="Ev100">Exposure value at ISO 100 for a surface that faces the sun (ISO 2720, C = 250).</param>
public sealed record BeamAnswer(double NormalLux, double? StopsLost, double? X, double? Y, double? CctK, double? Duv, double? Ev100)
{
    public static BeamAnswer Of(BeamLight beam, bool isUp)
    {
        if (!isUp || beam.NormalIlluminanceLux <= 0) return new BeamAnswer(0, null, null, null, null, null, null);
        var colour = beam.Colour.Correlated();
        return new BeamAnswer(
            beam.NormalIlluminanceLux, beam.StopsLost, beam.Colour.X, beam.Colour.Y, colour?.Kelvin, colour?.Duv,
            ExposureValue.OfIlluminance(beam.NormalIlluminanceLux));
    }
}

/// <summary>The moon.</summary>
/// <param name="HorizontalLux">On level ground, clear; 0 below the horizon.</param>
public sealed record MoonAnswer(double AzimuthDeg, double AirlessAltitudeDeg, double IlluminatedFraction, double DistanceKm, double HorizontalLux)
{
    public static MoonAnswer Of(Instant at, Place place)
    {
        var moon = Engine.Sky.Moon.At(at);
        var seen = moon.SeenFrom(place);
        return new MoonAnswer(
            seen.Azimuth.Degrees, seen.AirlessAltitude.Degrees, moon.IlluminatedFraction, seen.Distance.Kilometres, MoonLight.HorizontalLux(moon, place));
    }
}
