using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>Which way the ground faces, from the grid: over one cell, so that smaller forms are not in it.</summary>
internal sealed class GroundFacing(ElevationGrid grid)
{
    private const double HalfCell = 0.5;

    /// <summary>The cosine of the angle between the ground's upward normal and a direction: 1 facing it, negative facing
    /// away; NaN where the grid has no ground around.</summary>
    /// <param name="toSun">East, north and up, of length 1.</param>
    public double CosTo(GeoPoint point, (double East, double North, double Up) toSun)
    {
        var posts = grid.Posts;
        var (x, y) = posts.ToCells(point);
        var (left, right) = (Math.Max(0, x - HalfCell), Math.Min(posts.Columns - 1, x + HalfCell));
        var (top, bottom) = (Math.Max(0, y - HalfCell), Math.Min(posts.Rows - 1, y + HalfCell));
        var sinLatitude = point.Latitude.Sin();
        var columnM = Wgs84.PrimeVerticalRadiusM(sinLatitude) * point.Latitude.Cos() * double.DegreesToRadians(posts.LongitudeStepDeg);
        var rowM = Wgs84.MeridianRadiusM(sinLatitude) * double.DegreesToRadians(posts.LatitudeStepDeg);
        var eastward = (grid.HeightAtCells(right, y) - grid.HeightAtCells(left, y)) / ((right - left) * columnM);
        var northward = (grid.HeightAtCells(x, top) - grid.HeightAtCells(x, bottom)) / ((bottom - top) * rowM);
        return ((-eastward * toSun.East) - (northward * toSun.North) + toSun.Up) / Math.Sqrt(1 + (eastward * eastward) + (northward * northward));
    }
}
