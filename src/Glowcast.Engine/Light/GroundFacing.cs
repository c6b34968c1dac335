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
        var sinLatitude = point.Latitude.Sin();
        var halfM = HalfCell * grid.Posts.CellSize.Metres;
        var latitudeDeg = double.RadiansToDegrees(halfM / Wgs84.MeridianRadiusM(sinLatitude));
        var longitudeDeg = double.RadiansToDegrees(halfM / (Wgs84.PrimeVerticalRadiusM(sinLatitude) * point.Latitude.Cos()));
        var eastward = Slope(point, Beside(point, 0, -longitudeDeg), Beside(point, 0, longitudeDeg), halfM);
        var northward = Slope(point, Beside(point, -latitudeDeg, 0), Beside(point, latitudeDeg, 0), halfM);
        return ((-eastward * toSun.East) - (northward * toSun.North) + toSun.Up) / Math.Sqrt(1 + (eastward * eastward) + (northward * northward));
    }
    /// <summary>Metres up per metre from one side to the other; from the middle to one side where the grid ends on the other.</summary>
    private double Slope(GeoPoint middle, GeoPoint before, GeoPoint after, double halfM)
    {
        var (low, high) = (grid.HeightAt(before)?.Metres, grid.HeightAt(after)?.Metres);
        if (low is { } a && high is { } b) return (b - a) / (2 * halfM);
        if (grid.HeightAt(middle)?.Metres is not { } here) return double.NaN;
        return low is { } only ? (here - only) / halfM : high is { } other ? (other - here) / halfM : double.NaN;
    }

    private static GeoPoint Beside(GeoPoint point, double northDeg, double eastDeg) =>
        GeoPoint.FromDegrees(Math.Clamp(point.LatitudeDeg + northDeg, -90, 90), point.LongitudeDeg + eastDeg);
}
