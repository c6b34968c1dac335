using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>The moon at one instant as seen from the centre of the Earth, and the sun that lights it.</summary>
/// <param name="RightAscension">Apparent, true equator and equinox of date.</param>
/// <param name="Declination">Apparent, true equator of date.</param>
/// <param name="DistanceAu">Between the centres of Earth and moon, in astronomical units.</param>
public readonly record struct GeocentricMoon(Angle RightAscension, Angle Declination, double DistanceAu, GeocentricSun Sun)
{
    // IAU 2015, mean radius.
    private const double RadiusAu = 1_737_400 / ObserverFrame.AuInMetres;

    /// <summary>From the centre of the Earth to the moon, in the axes of <see cref="GeocentricSun.EarthFixedAu"/>.</summary>
    public (double X, double Y, double Z) EarthFixedAu => SkyVector.EarthFixed(
        RightAscension.Radians, Declination.Radians, Sun.GreenwichSiderealTime.Radians, DistanceAu);

    /// <summary>The angle at the moon between sun and Earth: 0° full, 90° half, 180° new (Meeus 48.3).</summary>
    public Angle PhaseAngle
    {
        get
        {
            var (moon, sun) = (EarthFixedAu, Sun.EarthFixedAu);
            return SkyVector.Between((-moon.X, -moon.Y, -moon.Z), (sun.X - moon.X, sun.Y - moon.Y, sun.Z - moon.Z));
        }
    }

    /// <summary>The lit share of the disc, 0 to 1, as seen from the centre of the Earth (Meeus 48.1).</summary>
    public double IlluminatedFraction => (1 + PhaseAngle.Cos()) / 2;

    /// <summary>As seen from a place on the WGS84 ellipsoid; parallax moves the moon by up to 1°.</summary>
    public MoonPosition SeenFrom(Place place) => SeenFrom(new ObserverFrame(place));

    /// <inheritdoc cref="SeenFrom(Place)"/>
    public MoonPosition SeenFrom(ObserverFrame observer)
    {
        var (azimuth, altitude, distanceAu) = SkyVector.Sighted(observer.Toward(EarthFixedAu));
        return new MoonPosition(
            azimuth, altitude, Angle.FromRadians(Math.Asin(RadiusAu / distanceAu)), Length.FromMetres(distanceAu * ObserverFrame.AuInMetres));
    }
}
