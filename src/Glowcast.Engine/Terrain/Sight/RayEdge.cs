using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Where a ray leaves a net, whatever ground is on it.</summary>
internal static class RayEdge
{
    private const double FirstStretchM = 1000;
    private const double ExactToM = 0.1;

    /// <summary>The distance at which it crosses the outermost posts; zero where it sets out from beyond them.</summary>
    public static Length Of(GridPosts posts, GeoPoint from, Azimuth azimuth)
    {
        var path = new CellPath(posts);
        path.Aim(from.Latitude.Radians, from.Longitude.Radians, azimuth.Radians);
        var (insideM, outsideM) = (0.0, FirstStretchM);
        while (IsInside(path.At(outsideM), posts)) (insideM, outsideM) = (outsideM, 2 * outsideM);
        while (outsideM - insideM > ExactToM)
        {
            var middleM = (insideM + outsideM) / 2;
            if (IsInside(path.At(middleM), posts)) insideM = middleM;
            else outsideM = middleM;
        }
        return Length.FromMetres(insideM);
    }

    private static bool IsInside(Cell cell, GridPosts posts) => cell.X >= 0 && cell.X <= posts.Columns - 1 && cell.Y >= 0 && cell.Y <= posts.Rows - 1;
}
