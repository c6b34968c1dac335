using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The latitudes and longitudes between which a net lies; east is never less than west.</summary>
internal readonly record struct GeoBox(double NorthDeg, double SouthDeg, double WestDeg, double EastDeg)
{
    private const int PointsAside = 32;

    // The rim bends a little between its points; no ground of ours is so near to the rim's bulge that this matters.
    private const double MarginDeg = 0.1;

    /// <param name="rim">Points all the way round, as <see cref="Rim"/> has them.</param>
    public static GeoBox Around(GeoPoint centre, IEnumerable<GeoPoint> rim)
    {
        var middle = centre.LongitudeDeg;
        var (north, south, west, east) = (-90.0, 90.0, 0.0, 0.0);
        foreach (var point in rim)
        {
            var aside = Math.IEEERemainder(point.LongitudeDeg - middle, 360);
            (north, south) = (Math.Max(north, point.LatitudeDeg), Math.Min(south, point.LatitudeDeg));
            (west, east) = (Math.Min(west, aside), Math.Max(east, aside));
        }
        return new GeoBox(north, south, middle + west, middle + east);
    }

    /// <summary>Cells on the outermost posts, all the way round.</summary>
    public static IEnumerable<(double X, double Y)> Rim(int rows, int columns)
    {
        var (right, bottom) = (columns - 1.0, rows - 1.0);
        for (var i = 0; i < PointsAside; i++)
        {
            var t = (double)i / PointsAside;
            yield return (t * right, 0);
            yield return (right, t * bottom);
            yield return (right - (t * right), bottom);
            yield return (0, bottom - (t * bottom));
        }
    }

    public bool IsNear(GeoPoint point) =>
        point.LatitudeDeg <= NorthDeg + MarginDeg && point.LatitudeDeg >= SouthDeg - MarginDeg
        && Math.Abs(Math.IEEERemainder(point.LongitudeDeg - ((WestDeg + EastDeg) / 2), 360)) <= ((EastDeg - WestDeg) / 2) + MarginDeg;
}
