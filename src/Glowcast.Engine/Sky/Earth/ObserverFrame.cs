using System.Runtime.Intrinsics;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>A place on the WGS84 ellipsoid as a point of the turning Earth, with its own east, north and up.</summary>
/// <remarks>Earth-fixed axes: x to 0° N 0° E, y to 0° N 90° E, z to the north pole. Lengths are in astronomical units. At a
/// pole, north is the direction north has along the meridian of the longitude given. The default value is no place at all; make
/// one from a <see cref="Place"/>.</remarks>
public readonly struct ObserverFrame
{
    /// <summary>One astronomical unit in metres (IAU 2012 Resolution B2).</summary>
    public const double AuInMetres = 149_597_870_700;

    private readonly double sinLatitude, cosLatitude, sinLongitude, cosLongitude;

    private readonly double x, y, z;

    public ObserverFrame(Place place)
    {
        (sinLatitude, cosLatitude) = Math.SinCos(place.Point.Latitude.Radians);
        (sinLongitude, cosLongitude) = Math.SinCos(place.Point.Longitude.Radians);
        var normalM = Wgs84.PrimeVerticalRadiusM(sinLatitude);
        var fromAxis = (normalM + place.Height.Metres) * cosLatitude / AuInMetres;
        (x, y) = (fromAxis * cosLongitude, fromAxis * sinLongitude);
        z = ((normalM * (1 - Wgs84.EccentricitySquared)) + place.Height.Metres) * sinLatitude / AuInMetres;
    }

    /// <summary>From the observer to a body, in astronomical units.</summary>
    /// <param name="earthFixedAu">From the centre of the Earth to the body.</param>
    public (double East, double North, double Up) Toward((double X, double Y, double Z) earthFixedAu)
    {
        var (dx, dy, dz) = (earthFixedAu.X - x, earthFixedAu.Y - y, earthFixedAu.Z - z);
        var outward = (dx * cosLongitude) + (dy * sinLongitude);
        var east = (dy * cosLongitude) - (dx * sinLongitude);
        var north = (dz * cosLatitude) - (outward * sinLatitude);
        var up = (outward * cosLatitude) + (dz * sinLatitude);
        return (east, north, up);
    }

    /// <summary>The other way: from the centre of the Earth to a body that stands in a direction from the observer [AU].</summary>
    /// <param name="altitude">Above the horizontal plane, without air.</param>
    /// <param name="distanceAu">From the observer.</param>
    public (double X, double Y, double Z) EarthFixedAu(Azimuth azimuth, Angle altitude, double distanceAu)
    {
        var ((sinAltitude, cosAltitude), (sinAzimuth, cosAzimuth)) = (Math.SinCos(altitude.Radians), Math.SinCos(azimuth.Radians));
        var (east, north, up) = (distanceAu * cosAltitude * sinAzimuth, distanceAu * cosAltitude * cosAzimuth, distanceAu * sinAltitude);
        var outward = (up * cosLatitude) - (north * sinLatitude);
        return (
            x + (outward * cosLongitude) - (east * sinLongitude), y + (outward * sinLongitude) + (east * cosLongitude), z + (up * sinLatitude) + (north * cosLatitude));
    }

    /// <summary>The same towards eight bodies at once, in single precision: within a hundredth of a second of arc.</summary>
    internal (Vector256<float> East, Vector256<float> North, Vector256<float> Up) Toward(Vector256<float> xAu, Vector256<float> yAu, Vector256<float> zAu)
    {
        var (dx, dy, dz) = (xAu - Vector256.Create((float)x), yAu - Vector256.Create((float)y), zAu - Vector256.Create((float)z));
        var outward = (dx * (float)cosLongitude) + (dy * (float)sinLongitude);
        var east = (dy * (float)cosLongitude) - (dx * (float)sinLongitude);
        var north = (dz * (float)cosLatitude) - (outward * (float)sinLatitude);
        var up = (outward * (float)cosLatitude) + (dz * (float)sinLatitude);
        return (east, north, up);
    }
}
