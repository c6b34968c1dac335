namespace Glowcast.Engine.Sky;

/// <summary>The nodding of the Earth's axis: IAU 1980 theory, 63 terms (Reda &amp; Andreas 2004, section 3.4).</summary>
/// <param name="LongitudeDeg">Δψ, in degrees.</param>
/// <param name="ObliquityDeg">Δε, in degrees.</param>
internal readonly record struct Nutation(double LongitudeDeg, double ObliquityDeg)
{
    private const double TableUnitsPerDegree = 1e4 * 3600;

    /// <param name="centuries">Julian centuries of terrestrial time since J2000.0.</param>
    public static Nutation At(double centuries)
    {
        var (longitude, obliquity) = NutationTables.Series.At(
            double.DegreesToRadians(MoonElongationDeg(centuries)),
            double.DegreesToRadians(SunAnomalyDeg(centuries)),
            double.DegreesToRadians(MoonAnomalyDeg(centuries)),
            double.DegreesToRadians(MoonLatitudeArgumentDeg(centuries)),
            double.DegreesToRadians(MoonNodeDeg(centuries)),
            centuries);
        return new Nutation(longitude / TableUnitsPerDegree, obliquity / TableUnitsPerDegree);
    }

    /// <summary>Mean elongation of the Moon from the Sun, in degrees, not wrapped (eq. 15).</summary>
    public static double MoonElongationDeg(double centuries) =>
        Cubic(centuries, 297.85036, 445267.111480, -0.0019142, 1 / 189474.0);

    /// <summary>Mean anomaly of the Sun, in degrees, not wrapped (eq. 16).</summary>
    public static double SunAnomalyDeg(double centuries) =>
        Cubic(centuries, 357.52772, 35999.050340, -0.0001603, -1 / 300000.0);

    /// <summary>Mean anomaly of the Moon, in degrees, not wrapped (eq. 17).</summary>
    public static double MoonAnomalyDeg(double centuries) =>
        Cubic(centuries, 134.96298, 477198.867398, 0.0086972, 1 / 56250.0);

    /// <summary>The Moon's argument of latitude, in degrees, not wrapped (eq. 18).</summary>
    public static double MoonLatitudeArgumentDeg(double centuries) =>
        Cubic(centuries, 93.27191, 483202.017538, -0.0036825, 1 / 327270.0);

    /// <summary>Longitude of the ascending node of the Moon's mean orbit, in degrees, not wrapped (eq. 19).</summary>
    public static double MoonNodeDeg(double centuries) =>
        Cubic(centuries, 125.04452, -1934.136261, 0.0020708, 1 / 450000.0);

    private static double Cubic(double t, double c0, double c1, double c2, double c3) => c0 + (t * (c1 + (t * (c2 + (t * c3)))));
}
