using MathNet.Numerics;

namespace Glowcast.Engine.Sky;

/// <summary>Where the Moon stands as seen from the centre of the Earth, referred to the mean ecliptic and equinox of date,
/// with the effect of light's travel: Meeus, Astronomical Algorithms (2nd ed. 1998), chapter 47, stated there to be good
/// to 10″ in longitude and 4″ in latitude.</summary>
/// <param name="LongitudeDeg">In [0, 360), without nutation.</param>
/// <param name="LatitudeDeg">In degrees.</param>
/// <param name="DistanceKm">Between the centres of Earth and Moon.</param>
internal readonly record struct MoonOrbit(double LongitudeDeg, double LatitudeDeg, double DistanceKm)
{
    private const double MeanDistanceKm = 385000.56;

    // Eqs. 47.1 to 47.6, degrees and powers of Julian centuries.
    private static readonly double[] MeanLongitude = [218.3164477, 481267.88123421, -0.0015786, 1 / 538841.0, -1 / 65194000.0];

    private static readonly double[] Elongation = [297.8501921, 445267.1114034, -0.0018819, 1 / 545868.0, -1 / 113065000.0];

    private static readonly double[] SunAnomaly = [357.5291092, 35999.0502909, -0.0001536, 1 / 24490000.0];

    private static readonly double[] MoonAnomaly = [134.9633964, 477198.8675055, 0.0087414, 1 / 69699.0, -1 / 14712000.0];

    private static readonly double[] LatitudeArgument = [93.2720950, 483202.0175233, -0.0036539, -1 / 3526000.0, 1 / 863310000.0];

    private static readonly double[] EarthEccentricity = [1, -0.002516, -0.0000074];

    /// <param name="centuries">Julian centuries of terrestrial time since J2000.0.</param>
    public static MoonOrbit At(double centuries)
    {
        var meanLongitudeDeg = Polynomial.Evaluate(centuries, MeanLongitude);
        var meanLongitude = Radians(MeanLongitude, centuries);
        var arguments = new Arguments(
            Radians(Elongation, centuries),
            Radians(SunAnomaly, centuries),
            Radians(MoonAnomaly, centuries),
            Radians(LatitudeArgument, centuries),
            Polynomial.Evaluate(centuries, EarthEccentricity));

        var (longitude, distance) = Sum(MoonOrbitTables.LongitudeAndDistance, arguments);
        var (latitude, _) = Sum(MoonOrbitTables.Latitude, arguments);
        longitude += LongitudeByPlanets(centuries, meanLongitude, arguments);
        latitude += LatitudeByPlanets(centuries, meanLongitude, arguments);
        return new MoonOrbit(Degrees.Wrap(meanLongitudeDeg + (longitude * 1e-6)), latitude * 1e-6, MeanDistanceKm + (distance / 1000));
    }

    private static (double Sines, double Cosines) Sum(MoonTerm[] terms, Arguments at)
    {
        var (sines, cosines) = (0.0, 0.0);
        foreach (var term in terms)
        {
            var (sin, cos) = Math.SinCos((term.D * at.D) + (term.M * at.M) + (term.N * at.N) + (term.F * at.F));
            // The Sun's anomaly comes in through the eccentricity of the Earth's orbit, which shrinks.
            var factor = term.M switch { 0 => 1, 1 or -1 => at.E, _ => at.E * at.E };
            sines += term.Sine * factor * sin;
            cosines += term.Cosine * factor * cos;
        }
        return (sines, cosines);
    }

    // Venus, Jupiter and the flattening of the Earth (p. 338), in 1e-6 degrees.
    private static double LongitudeByPlanets(double centuries, double meanLongitude, Arguments at) =>
        (3958 * Degrees.Sin(Venus(centuries))) + (1962 * Math.Sin(meanLongitude - at.F)) + (318 * Degrees.Sin(Jupiter(centuries)));

    private static double LatitudeByPlanets(double centuries, double meanLongitude, Arguments at)
    {
        var venus = double.DegreesToRadians(Venus(centuries));
        return (-2235 * Math.Sin(meanLongitude)) + (382 * Degrees.Sin(313.45 + (481266.484 * centuries)))
            + (175 * Math.Sin(venus - at.F)) + (175 * Math.Sin(venus + at.F))
            + (127 * Math.Sin(meanLongitude - at.N)) - (115 * Math.Sin(meanLongitude + at.N));
    }

    private static double Venus(double centuries) => 119.75 + (131.849 * centuries);

    private static double Jupiter(double centuries) => 53.09 + (479264.290 * centuries);

    private static double Radians(double[] degreesByPower, double centuries) =>
        double.DegreesToRadians(Degrees.Wrap(Polynomial.Evaluate(centuries, degreesByPower)));

    /// <summary>The fundamental arguments, in radians, named as in the tables, and the eccentricity factor.</summary>
    private readonly record struct Arguments(double D, double M, double N, double F, double E);
}
