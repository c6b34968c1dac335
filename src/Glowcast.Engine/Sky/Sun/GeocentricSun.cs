using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>The sun at one instant as seen from the centre of the Earth; make it once and ask it for any number of places.</summary>
/// <param name="RightAscension">Apparent, true equator and equinox of date.</param>
/// <param name="Declination">Apparent, true equator of date.</param>
/// <param name="DistanceAu">From the centre of the Earth, in astronomical units.</param>
/// <param name="GreenwichSiderealTime">Apparent.</param>
/// <param name="EquationOfTimeMin">Sundial minus clock, in minutes.</param>
public readonly record struct GeocentricSun(
    Angle RightAscension, Angle Declination, double DistanceAu, Angle GreenwichSiderealTime, double EquationOfTimeMin)
{
    // Auwers 1891, as used by the Astronomical Almanac.
    internal static readonly Angle SemidiameterAtOneAu = Angle.FromArcseconds(959.63);

    /// <summary>From the centre of the Earth to the sun, in astronomical units: X toward 0° N 0° E, Y toward 0° N 90° E, Z north.</summary>
    public (double X, double Y, double Z) EarthFixedAu => SkyVector.EarthFixed(
        RightAscension.Radians, Declination.Radians, GreenwichSiderealTime.Radians, DistanceAu);

    /// <summary>As seen from a place on the WGS84 ellipsoid: the exact parallax, taken as a difference of vectors.</summary>
    public SunPosition SeenFrom(Place place) => SeenFrom(new ObserverFrame(place));

    /// <inheritdoc cref="SeenFrom(Place)"/>
    public SunPosition SeenFrom(ObserverFrame observer)
    {
        var (azimuth, altitude, distanceAu) = SkyVector.Sighted(observer.Toward(EarthFixedAu));
        return new SunPosition(azimuth, altitude, SemidiameterAtOneAu / distanceAu, distanceAu);
    }
}
