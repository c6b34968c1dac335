using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>Which way the ground faces, from the grid: over one cell, so that smaller forms are not in it.</summary>
internal sealed class GroundFacing(ElevationGrid grid)
{
    private readonly double halfM = grid.Posts.CellSize.Metres / 2;

    /// <summary>The cosine of the angle between the ground's upward normal and the sun as it is seen there, refracted; NaN where
    /// the grid has no ground all around.</summary>
    /// <param name="sunAu">From the centre of the earth to the sun, earth-fixed [AU].</param>
    public double CosTo(Place ground, (double X, double Y, double Z) sunAu)
    {
        var (east, north, up) = new ObserverFrame(ground).Toward(sunAu);
        var level = double.Hypot(east, north);
        var (sin, cos) = Math.SinCos(Refraction.ToApparentRad(Math.Atan2(up, level), ground.Height.Metres));
        return CosTo(ground.Point, (east / level * cos, north / level * cos, sin));
    }

    /// <summary>The cosine of the angle between the ground's upward normal and a direction: 1 facing it, negative facing
    /// away; NaN where the grid has no ground all around.</summary>
    /// <param name="toSun">East, north and up, of length 1.</param>
    public double CosTo(GeoPoint point, (double East, double North, double Up) toSun)
    {
        var sinLatitude = point.Latitude.Sin();
        var northDeg = double.RadiansToDegrees(halfM / Wgs84.MeridianRadiusM(sinLatitude));
        var eastDeg = double.RadiansToDegrees(halfM / (Wgs84.PrimeVerticalRadiusM(sinLatitude) * point.Latitude.Cos()));
        var eastward = (HeightM(0, eastDeg) - HeightM(0, -eastDeg)) / (2 * halfM);
        var northward = (HeightM(northDeg, 0) - HeightM(-northDeg, 0)) / (2 * halfM);
        return ((-eastward * toSun.East) - (northward * toSun.North) + toSun.Up) / Math.Sqrt(1 + (eastward * eastward) + (northward * northward));

        double HeightM(double north, double east) => Math.Abs(point.LatitudeDeg + north) <= 90
            ? grid.HeightAt(GeoPoint.FromDegrees(point.LatitudeDeg + north, point.LongitudeDeg + east))?.Metres ?? double.NaN
            : double.NaN;
    }
}
