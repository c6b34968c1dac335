using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>Directions and vectors of bodies in the sky.</summary>
internal static class SkyVector
{
    /// <summary>A place on the celestial sphere as a vector in the axes of the turning Earth, of the given length.</summary>
    public static (double X, double Y, double Z) EarthFixed(
        double rightAscensionRad, double declinationRad, double siderealTimeRad, double length)
    {
        var (sinDeclination, cosDeclination) = Math.SinCos(declinationRad);
        var (sinLongitude, cosLongitude) = Math.SinCos(rightAscensionRad - siderealTimeRad);
        return (length * cosDeclination * cosLongitude, length * cosDeclination * sinLongitude, length * sinDeclination);
    }

    /// <summary>Bearing, height above the horizontal plane and length of a local vector.</summary>
    public static (Azimuth Azimuth, Angle Altitude, double Length) Sighted((double East, double North, double Up) vector)
    {
        var level = Math.Sqrt((vector.East * vector.East) + (vector.North * vector.North));
        var length = Math.Sqrt((level * level) + (vector.Up * vector.Up));
        return (Azimuth.FromEastNorth(vector.East, vector.North), Angle.FromRadians(Math.Atan2(vector.Up, level)), length);
    }

    /// <summary>The angle between two vectors, by its half (Kahan): exact near 0° and 180° too.</summary>
    public static Angle Between((double X, double Y, double Z) a, (double X, double Y, double Z) b)
    {
        var (lengthA, lengthB) = (Norm(a), Norm(b));
        var difference = Norm(((a.X * lengthB) - (b.X * lengthA), (a.Y * lengthB) - (b.Y * lengthA), (a.Z * lengthB) - (b.Z * lengthA)));
        var sum = Norm(((a.X * lengthB) + (b.X * lengthA), (a.Y * lengthB) + (b.Y * lengthA), (a.Z * lengthB) + (b.Z * lengthA)));
        return Angle.FromRadians(2 * Math.Atan2(difference, sum));
    }

    private static double Norm((double X, double Y, double Z) v) => Math.Sqrt((v.X * v.X) + (v.Y * v.Y) + (v.Z * v.Z));
}
