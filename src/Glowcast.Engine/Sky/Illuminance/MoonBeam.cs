using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>The moon's direct light: what it gives to ground that faces it, and that terrain can take away.</summary>
/// <remarks>
/// Outside the air: 10^(−0.4(3.84 + 0.026 i + 4·10⁻⁹ i⁴)) foot-candles at 384 400 km (Krisciunas and Schaefer 1991, PASP 103, 1033), i the phase angle in degrees. The surge
/// within 7° of opposition, up to 35 %, is left out. Through the air it loses what the sun's beam loses there. <see cref="MoonLight"/> is the moon and
/// the sky that it lights together, on level ground: near the horizon many times the beam.
/// </remarks>
public static class MoonBeam
{
    private const double LuxPerFootCandle = 10.7639;
    private const double MeanDistanceM = 384_400_000;

    /// <summary>Outside the air, on a surface that faces the moon [lx].</summary>
    /// <param name="phaseAngle">0° full, 180° new.</param>
    /// <param name="distance">From the observer.</param>
    public static double OutsideLux(Angle phaseAngle, Length distance)
    {
        var phaseDeg = Math.Abs(phaseAngle.Degrees);
        var magnitude = 3.84 + (0.026 * phaseDeg) + (4e-9 * Math.Pow(phaseDeg, 4));
        return LuxPerFootCandle * Math.Pow(10, -0.4 * magnitude) * Math.Pow(MeanDistanceM / distance.Metres, 2);
    }

    /// <summary>After its way through clear air; its colour is about the sun's at the same altitude.</summary>
    /// <param name="apparentAltitude">Of the moon's centre as seen; below the horizontal too.</param>
    /// <param name="air">At the observer; standard when left out.</param>
    public static BeamLight At(Angle apparentAltitude, Length observerHeight, Angle phaseAngle, Length distance, Haze haze, Air? air = null)
    {
        var sun = DirectBeam.At(apparentAltitude, observerHeight, haze, air);
        return new BeamLight(sun.NormalIlluminanceLux / DirectBeam.Outside.NormalIlluminanceLux * OutsideLux(phaseAngle, distance), sun.Colour);
    }
}
