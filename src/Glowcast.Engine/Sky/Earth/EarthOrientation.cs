namespace Glowcast.Engine.Sky;

/// <summary>How the Earth stands in space at one instant.</summary>
/// <param name="ObliquityDeg">True obliquity of the ecliptic, in degrees.</param>
/// <param name="SiderealTimeDeg">Apparent sidereal time at Greenwich, in degrees.</param>
internal readonly record struct EarthOrientation(Nutation Nutation, double ObliquityDeg, double SiderealTimeDeg)
{
    public static EarthOrientation At(JulianTime time)
    {
        var nutation = Nutation.At(time.TerrestrialCenturies);
        var obliquityDeg = EarthRotation.TrueObliquityDeg(time.TerrestrialMillennia, nutation);
        return new EarthOrientation(nutation, obliquityDeg, EarthRotation.ApparentSiderealTimeDeg(time, nutation, obliquityDeg));
    }
}
