using MathNet.Numerics;

namespace Glowcast.Engine.Sky;

/// <summary>How the Earth's axis leans and how far the Earth has turned (Reda &amp; Andreas 2004, sections 3.5 and 3.8).</summary>
internal static class EarthRotation
{
    // Laskar 1986, in arcseconds and powers of ten millennia.
    private static readonly double[] MeanObliquity =
        [84381.448, -4680.93, -1.55, 1999.25, -51.38, -249.67, -39.05, 7.12, 27.87, 5.79, 2.45];

    /// <summary>Mean obliquity of the ecliptic in arcseconds (eq. 24); within 0.02″ over ten centuries either side of J2000.0.</summary>
    /// <param name="millennia">Julian millennia of terrestrial time since J2000.0.</param>
    public static double MeanObliquityArcsec(double millennia) => Polynomial.Evaluate(millennia / 10, MeanObliquity);

    /// <summary>Obliquity with nutation, in degrees (eq. 25).</summary>
    public static double TrueObliquityDeg(double millennia, Nutation nutation) =>
        (MeanObliquityArcsec(millennia) / 3600) + nutation.ObliquityDeg;

    /// <summary>Mean sidereal time at Greenwich in degrees, in [0, 360) (eq. 28; IAU 1982).</summary>
    public static double MeanSiderealTimeDeg(JulianTime time)
    {
        var t = time.UniversalCenturies;
        // 360.98… degrees a day: the whole turns are dropped before the rest is added, which keeps the last digits.
        var turns = 360 * (time.UniversalDays - Math.Floor(time.UniversalDays));
        return Degrees.Wrap(280.46061837 + turns + (0.98564736629 * time.UniversalDays) + (t * t * (0.000387933 - (t / 38710000))));
    }

    /// <summary>Apparent sidereal time at Greenwich in degrees, in [0, 360) (eq. 29).</summary>
    public static double ApparentSiderealTimeDeg(JulianTime time, Nutation nutation, double trueObliquityDeg) =>
        Degrees.Wrap(MeanSiderealTimeDeg(time) + (nutation.LongitudeDeg * Degrees.Cos(trueObliquityDeg)));
}
