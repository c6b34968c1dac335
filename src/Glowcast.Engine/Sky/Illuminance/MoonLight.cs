using Glowcast.Engine.Measures;
using MathNet.Numerics;

namespace Glowcast.Engine.Sky;

/// <summary>What the moon, seen through a clear average atmosphere, gives to level ground.</summary>
/// <remarks>The polynomials of the Explanatory Supplement to the Astronomical Almanac (Seidelmann 1992), from Janiczek &amp; DeYoung,
/// US Naval Observatory Circular 171 (1987). The fit itself is good to 7 %. Against that stand what it leaves out: the surge
/// within 7° of full moon (up to 35 % brighter, Krisciunas &amp; Schaefer 1991), the darker waning half, and the air of the day.</remarks>
public static class MoonLight
{
    /// <summary>What to allow for, in stops either way, with the moon higher than 20° in clear air; near the horizon the air
    /// of the day makes it twice that.</summary>
    public const double UncertaintyStops = 0.5;

    private const double MeanParallaxDeg = 0.951;

    private const double EarthRadiusM = 6378137;

    private static readonly (double AboveDeg, double[] Coefficients)[] FullMoon =
    [
        (20, [-1.95, 4.06, -4.24, 1.56]),
        (5, [-2.58, 12.58, -42.58, 59.06]),
        (-0.8, [-2.79, 24.27, -252.95, 1321.29]),
    ];

    /// <summary>Illuminance of a level surface in lux; nothing from a moon whose centre is lower than −0.8°.</summary>
    /// <param name="airlessAltitude">Of the moon's centre.</param>
    /// <param name="phaseAngle">0° full, 180° new.</param>
    /// <param name="distance">From the centre of the Earth.</param>
    public static double HorizontalLux(Angle airlessAltitude, Angle phaseAngle, Length distance)
    {
        foreach (var (aboveDeg, coefficients) in FullMoon)
        {
            if (airlessAltitude.Degrees < aboveDeg) continue;
            return Math.Pow(10, Polynomial.Evaluate(airlessAltitude.Degrees / 90, coefficients)
                + PhaseLog(Math.Abs(phaseAngle.Degrees)) + DistanceLog(distance));
        }
        return 0;
    }

    /// <summary>What a moon gives to level ground at a place, in lux.</summary>
    public static double HorizontalLux(GeocentricMoon moon, Place place) => HorizontalLux(
        moon.SeenFrom(place).AirlessAltitude, moon.PhaseAngle, Length.FromMetres(moon.DistanceAu * ObserverFrame.AuInMetres));

    private static double PhaseLog(double phaseDeg) => (-8.68e-3 * phaseDeg) - (2.2e-9 * Math.Pow(phaseDeg, 4));

    private static double DistanceLog(Length distance)
    {
        var parallaxDeg = double.RadiansToDegrees(Math.Asin(EarthRadiusM / distance.Metres));
        return 2 * Math.Log10(parallaxDeg / MeanParallaxDeg);
    }
}
