using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Sky;

/// <summary>Where the moon is: chapter 47 of Meeus (see <see cref="MoonOrbit"/>) on the same turning Earth as the sun's. Good
/// to 0.004°, a hundredth of the moon's disc.</summary>
public static class Moon
{
    private const double KmPerAu = ObserverFrame.AuInMetres / 1000;

    /// <summary>The moon as seen from the centre of the Earth.</summary>
    /// <inheritdoc cref="Sun.At(Instant, double?)"/>
    public static GeocentricMoon At(Instant utc, double? deltaTSeconds = null)
    {
        var time = JulianTime.At(utc, deltaTSeconds);
        var earth = EarthOrientation.At(time);
        var orbit = MoonOrbit.At(time.TerrestrialCenturies);
        var longitudeDeg = orbit.LongitudeDeg + earth.Nutation.LongitudeDeg;
        return new GeocentricMoon(
            Angle.FromDegrees(Ecliptic.RightAscensionDeg(longitudeDeg, orbit.LatitudeDeg, earth.ObliquityDeg)),
            Angle.FromDegrees(Ecliptic.DeclinationDeg(longitudeDeg, orbit.LatitudeDeg, earth.ObliquityDeg)),
            orbit.DistanceKm / KmPerAu,
            Sun.At(time, earth));
    }
}
