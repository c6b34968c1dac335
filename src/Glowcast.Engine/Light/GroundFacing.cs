using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>How squarely the ground faces the sun: by <see cref="GroundNormal"/>, in the ground's own vertical.</summary>
internal sealed class GroundFacing(ElevationGrid grid)
{
    /// <summary>The cosine of the angle between the ground's upward normal and the sun as it is seen there, refracted; NaN where
    /// the grid has no ground around.</summary>
    /// <param name="sunAu">From the centre of the earth to the sun, earth-fixed [AU].</param>
    public double CosTo(Place ground, (double X, double Y, double Z) sunAu) => CosTo(ground.Point, ApparentSun(ground, sunAu));

    /// <summary>The cosine of the angle between the ground's upward normal and a direction: 1 facing it, negative facing
    /// away; NaN where the grid has no ground around.</summary>
    /// <param name="toSun">East, north and up, of length 1.</param>
    public double CosTo(GeoPoint point, (double East, double North, double Up) toSun) => GroundNormal.At(grid, point)?.CosTo(toSun) ?? double.NaN;

    /// <summary>Towards a body as it is seen from the ground, refracted: east, north and up there, of length 1.</summary>
    /// <param name="bodyAu">From the centre of the earth, earth-fixed [AU].</param>
    public static (double East, double North, double Up) ApparentSun(Place ground, (double X, double Y, double Z) bodyAu)
    {
        var (east, north, up) = new ObserverFrame(ground).Toward(bodyAu);
        var level = double.Hypot(east, north);
        var (sin, cos) = Math.SinCos(Refraction.ToApparentRad(Math.Atan2(up, level), ground.Height.Metres));
        return level > 0 ? (east / level * cos, north / level * cos, sin) : (0, 0, Math.Sign(up));
    }
}
