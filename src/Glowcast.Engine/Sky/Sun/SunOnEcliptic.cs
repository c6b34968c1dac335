using MathNet.Numerics;

namespace Glowcast.Engine.Sky;

/// <summary>The Sun among the stars as seen from the centre of the Earth (Reda &amp; Andreas 2004, sections 3.3, 3.6, 3.7 and
/// appendix A.1), in degrees.</summary>
internal static class SunOnEcliptic
{
    // eq. A2, powers of Julian millennia.
    private static readonly double[] MeanLongitude =
        [280.4664567, 360007.6982779, 0.03032028, 1 / 49931.0, -1 / 15300.0, -1 / 2000000.0];

    /// <summary>Geocentric longitude in [0, 360): opposite to where the Earth stands from the Sun (eq. 13).</summary>
    public static double LongitudeDeg(double heliocentricLongitudeDeg) => Degrees.Wrap(heliocentricLongitudeDeg + 180);

    /// <summary>Geocentric latitude (eq. 14).</summary>
    public static double LatitudeDeg(double heliocentricLatitudeDeg) => -heliocentricLatitudeDeg;

    /// <summary>How far light's travel and the Earth's motion set the Sun back (eq. 26).</summary>
    public static double AberrationDeg(double distanceAu) => -20.4898 / (3600 * distanceAu);

    /// <summary>Apparent longitude: with nutation and aberration (eq. 27).</summary>
    public static double ApparentLongitudeDeg(double longitudeDeg, Nutation nutation, double distanceAu) =>
        longitudeDeg + nutation.LongitudeDeg + AberrationDeg(distanceAu);

    /// <summary>Mean longitude in [0, 360) (eq. A2).</summary>
    /// <param name="millennia">Julian millennia of terrestrial time since J2000.0.</param>
    public static double MeanLongitudeDeg(double millennia) => Degrees.Wrap(Polynomial.Evaluate(millennia, MeanLongitude));

    /// <summary>Sundial minus clock, in minutes (eq. A1; Meeus 28.1).</summary>
    /// <remarks>The mean longitude is taken at terrestrial time, as published; reckoned from universal time the result
    /// would be less by 0.0027 s for each second of ΔT, 0.2 s in our years.</remarks>
    public static double EquationOfTimeMin(
        double meanLongitudeDeg, double rightAscensionDeg, Nutation nutation, double trueObliquityDeg) =>
        4 * Degrees.WrapSigned(meanLongitudeDeg - 0.0057183 - rightAscensionDeg
            + (nutation.LongitudeDeg * Degrees.Cos(trueObliquityDeg)));
}
