namespace Glowcast.Engine.Sky;

/// <summary>Between which airless altitudes the sun, or the moon, can stand in one direction, over all dates, seen from a belt of latitudes.</summary>
/// <remarks>From the sine rule of the astronomical triangle, sin δ = sin φ sin h + cos φ cos h cos A, by trying every altitude
/// from the deepest sun that can light any ground on; rounded outwards by half a degree.</remarks>
/// <param name="LowestRad">[rad].</param>
/// <param name="HighestRad">[rad].</param>
internal readonly record struct SunReach(double LowestRad, double HighestRad)
{
    // The obliquity of the ecliptic with what nutation, parallax and the centuries may add.
    public const double SunDeclinationDeg = 23.6;

    // The moon's orbit leans 5.15° (to 5.3°) against the ecliptic; its parallax adds up to 1°.
    public const double MoonDeclinationDeg = 30;

    // No ground is so high that a sun as deep as this could light it.
    private const double DeepestDeg = -6;

    private const double StepDeg = 0.5;

    /// <returns>Null where it never stands.</returns>
    public static SunReach? Towards(double azimuthRad, double southernmostRad, double northernmostRad, double mostDeclinationDeg = SunDeclinationDeg)
    {
        var (lowest, highest) = (double.PositiveInfinity, double.NegativeInfinity);
        var latitudes = 2 + (int)((northernmostRad - southernmostRad) / double.DegreesToRadians(StepDeg));
        for (var i = 0; i < latitudes; i++)
        {
            var (sinLatitude, cosLatitude) = Math.SinCos(southernmostRad + ((northernmostRad - southernmostRad) * i / (latitudes - 1)));
            for (var altitudeDeg = DeepestDeg; altitudeDeg <= 90; altitudeDeg += StepDeg)
            {
                var (sinAltitude, cosAltitude) = Math.SinCos(double.DegreesToRadians(altitudeDeg));
                var sinDeclination = (sinLatitude * sinAltitude) + (cosLatitude * cosAltitude * Math.Cos(azimuthRad));
                if (Math.Abs(sinDeclination) > Math.Sin(double.DegreesToRadians(mostDeclinationDeg))) continue;
                (lowest, highest) = (Math.Min(lowest, altitudeDeg), Math.Max(highest, altitudeDeg));
            }
        }
        return lowest > highest ? null : new SunReach(double.DegreesToRadians(lowest - StepDeg), double.DegreesToRadians(highest + StepDeg));
    }
}
