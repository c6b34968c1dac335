using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>Light from the clear sky alone on open level ground: what shaded ground gets, and everything after sunset.</summary>
/// <remarks>Near the sea; a summit's sky is darker, at 3000 m by up to half a stop.</remarks>
public static class SkyLight
{
    /// <summary>Air that is called clear (β = 0.1, α = 1.3; Iqbal 1983, An Introduction to Solar Radiation, ch. 6); the
    /// published totals belong to about such air.</summary>
    private static readonly Haze ClearAir = new(0.1);

    /// <summary>The altitude convention of the formulas leaves open whether refraction is in; this is the most it makes.</summary>
    private static readonly Angle Ambiguity = Angle.FromDegrees(0.55);

    /// <summary>In lux: the total of <see cref="GroundIlluminance.Seidelmann"/>, less the direct sun of clear air on the
    /// same level ground while it is up.</summary>
    public static double IlluminanceLux(Angle airlessAltitude)
    {
        var total = GroundIlluminance.Seidelmann(airlessAltitude);
        var apparent = Refraction.ToApparent(airlessAltitude, Length.Zero);
        return apparent <= Angle.Zero
            ? total
            : total - (apparent.Sin() * DirectBeam.At(apparent, Length.Zero, ClearAir).NormalIlluminanceLux);
    }

    /// <summary>How fast it grows with the sun's altitude [stops per degree], over half a degree.</summary>
    public static double StopsPerDegree(Angle airlessAltitude)
    {
        var step = Angle.FromDegrees(0.25);
        return Math.Log2(IlluminanceLux(airlessAltitude + step) / IlluminanceLux(airlessAltitude - step)) / (2 * step.Degrees);
    }

    /// <summary>How fast it grows [stops per minute]; negative in the evening.</summary>
    /// <param name="sunDegreesPerHour">How fast the sun climbs, 15° · cos(latitude) · sin(azimuth) an hour.</param>
    public static double StopsPerMinute(Angle airlessAltitude, double sunDegreesPerHour) =>
        StopsPerDegree(airlessAltitude) * sunDegreesPerHour / 60;

    /// <summary>What two published formulas leave open [± stops], with the altitude each may mean; the air of the day
    /// (haze, snow on the ground, thin cloud) adds about one stop.</summary>
    public static double UncertaintyStops(Angle airlessAltitude)
    {
        // Circular 171 says nothing below nautical twilight; there it is taken as far off as at −6°, where both still hold.
        var altitude = Angle.Max(airlessAltitude, Angle.FromDegrees(-6));
        return new[] { -Ambiguity, Angle.Zero, Ambiguity }.Max(shift => Difference(altitude + shift));
    }

    private static double Difference(Angle airlessAltitude) =>
        Math.Abs(Math.Log2(GroundIlluminance.Circular171(airlessAltitude) / GroundIlluminance.Seidelmann(airlessAltitude)));
}
