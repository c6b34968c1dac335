namespace Glowcast.Engine.Sky;

/// <summary>From the plane of the Earth's orbit to the plane of its equator, in degrees.</summary>
internal static class Ecliptic
{
    /// <summary>Right ascension in [0, 360) (Reda &amp; Andreas 2004, eq. 30).</summary>
    public static double RightAscensionDeg(double longitudeDeg, double latitudeDeg, double obliquityDeg)
    {
        var y = (Degrees.Sin(longitudeDeg) * Degrees.Cos(obliquityDeg))
            - (Math.Tan(double.DegreesToRadians(latitudeDeg)) * Degrees.Sin(obliquityDeg));
        return Degrees.Wrap(double.RadiansToDegrees(Math.Atan2(y, Degrees.Cos(longitudeDeg))));
    }

    /// <summary>Declination (Reda &amp; Andreas 2004, eq. 31).</summary>
    public static double DeclinationDeg(double longitudeDeg, double latitudeDeg, double obliquityDeg) =>
        double.RadiansToDegrees(Math.Asin(
            (Degrees.Sin(latitudeDeg) * Degrees.Cos(obliquityDeg))
            + (Degrees.Cos(latitudeDeg) * Degrees.Sin(obliquityDeg) * Degrees.Sin(longitudeDeg))));
}
