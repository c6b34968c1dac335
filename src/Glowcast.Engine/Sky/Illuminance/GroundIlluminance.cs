using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>Sun and clear sky together on level ground near the sea, by two published formulas.</summary>
/// <remarks>They differ by up to half a stop about sunset. <see cref="Seidelmann"/> is the one used: at sunset and at the
/// ends of the three twilights it gives 454, 3.4, 0.0081 and 0.00064 lux, which meets the AMS Glossary (410–585, 2–3.5,
/// 0.008, 0.0006); Circular 171 gives 674 lux at −0.8° and half the AMS figure at −12°. It does not say whether refraction
/// is in its altitude; the airless altitude is the reading that meets the AMS.</remarks>
internal static class GroundIlluminance
{
    private const double LowestDeg = -18;

    private static readonly Branch[] Branches =
    [
        new(20, 3.74, 3.97, -4.07, 1.47),
        new(5, 3.05, 13.28, -45.98, 64.33),
        new(-0.8, 2.88, 22.26, -207.64, 1034.30),
        new(-5, 2.88, 21.81, -258.11, -858.36),
        new(-12, 2.70, 12.17, -431.69, -1899.83),
        new(LowestDeg, 13.84, 262.72, 1447.42, 2797.93),
    ];

    /// <summary>In lux, from −18° to 90°; below, what is left at −18°.</summary>
    /// <remarks>Seidelmann (ed.), Explanatory Supplement to the Astronomical Almanac, 1992. At the joints of its six
    /// branches it jumps by up to 5 %.</remarks>
    public static double Seidelmann(Angle airlessAltitude)
    {
        var altitudeDeg = Math.Clamp(airlessAltitude.Degrees, LowestDeg, 90);
        return Math.Pow(10, BranchAt(altitudeDeg).Log10Lux(altitudeDeg / 90));
    }

    /// <summary>How fast <see cref="Seidelmann"/> grows with the sun's altitude [stops per degree]: 0.8 at sunset, 1.65 at −7°.</summary>
    public static double StopsPerDegree(Angle airlessAltitude) => airlessAltitude.Degrees is <= LowestDeg or > 90
        ? 0
        : BranchAt(airlessAltitude.Degrees).Slope(airlessAltitude.Degrees / 90) / 90 / Math.Log10(2);

    /// <summary>In lux, clear sky: Janiczek &amp; DeYoung, US Naval Observatory Circular 171, 1987.</summary>
    /// <remarks>Takes the refracted altitude down to −5/6°, the airless one below it, and so jumps there.</remarks>
    public static double Circular171(Angle airlessAltitude)
    {
        const double scaleHeights = 753.66156; // the earth's radius in heights of a uniform air
        var altitude = airlessAltitude.Degrees < -5.0 / 6 ? airlessAltitude : Refraction.ToApparent(airlessAltitude, Length.Zero);
        var sin = altitude.Sin();
        var outer = Math.Asin(scaleHeights * altitude.Cos() / (scaleHeights + 1));
        var airMass = (scaleHeights * (Math.Cos(outer) - sin)) + Math.Cos(outer);
        var sun = Math.Exp(-0.21 * airMass) * sin;
        var sky = 0.0289 * Math.Exp(-0.042 * airMass) * (1 + ((altitude.Degrees + 90) * sin / 57.29577951));
        return 133_775 * (sun + sky);
    }

    private static Branch BranchAt(double altitudeDeg) => Branches.First(branch => altitudeDeg > branch.AboveDeg || branch.AboveDeg == LowestDeg);

    /// <summary>log₁₀ of the illuminance [lux] is a cubic in x, the altitude over 90°.</summary>
    private readonly record struct Branch(double AboveDeg, double L0, double L1, double L2, double L3)
    {
        public double Log10Lux(double x) => L0 + (x * (L1 + (x * (L2 + (x * L3)))));

        public double Slope(double x) => L1 + (x * ((2 * L2) + (x * 3 * L3)));
    }
}
