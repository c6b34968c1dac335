using System.Numerics;

namespace Glowcast.Field.Pictures;

/// <summary>Which way the ground of each pixel of a ridge raster faces.</summary>
/// <remarks>From the places of neighbouring pixels of the same slope; distances are averaged over the nearest of them first, so
/// that the cells of the grid do not show as facets. The page does the same.</remarks>
internal static class GroundSlopes
{
    /// <summary>Ground whose distance differs by more than this share belongs to another slope.</summary>
    public const float SameSlope = 0.08f;

    private const int SmoothingPx = 2;

    /// <returns>East, north, up, of length 1, row by row; zero for sky.</returns>
    public static Vector3[] Of(RidgeRaster raster, float[] distanceM)
    {
        var places = Places(raster, Smoothed(raster, distanceM));
        var normals = new Vector3[places.Length];
        for (var y = 0; y < raster.Rows; y++)
        {
            for (var x = 0; x < raster.Columns; x++)
            {
                var here = (y * raster.Columns) + x;
                if (distanceM[here] == 0) continue;
                var left = x > 0 && Same(here, here - 1) ? here - 1 : here;
                var right = x < raster.Columns - 1 && Same(here, here + 1) ? here + 1 : here;
                var above = y > 0 && Same(here, here - raster.Columns) ? here - raster.Columns : here;
                var below = y < raster.Rows - 1 && Same(here, here + raster.Columns) ? here + raster.Columns : here;
                var normal = Vector3.Cross(places[right] - places[left], places[above] - places[below]);
                // Without a neighbour the ground is taken to face the eye.
                normals[here] = Vector3.Normalize(normal == Vector3.Zero ? -places[here] : normal);
            }
        }
        return normals;

        bool Same(int a, int b) => Math.Abs(distanceM[a] - distanceM[b]) < SameSlope * distanceM[a];
    }

    private static Vector3[] Places(RidgeRaster raster, float[] distanceM)
    {
        var places = new Vector3[distanceM.Length];
        for (var y = 0; y < raster.Rows; y++)
        {
            var (up, level) = Math.SinCos(double.DegreesToRadians(raster.AltitudeDegOf(y)));
            for (var x = 0; x < raster.Columns; x++)
            {
                var (east, north) = Math.SinCos(double.DegreesToRadians(raster.FromDeg + ((x + 0.5) * raster.PixelDeg)));
                places[(y * raster.Columns) + x] = distanceM[(y * raster.Columns) + x] * new Vector3((float)(level * east), (float)(level * north), (float)up);
            }
        }
        return places;
    }

    private static float[] Smoothed(RidgeRaster raster, float[] distanceM)
    {
        var smooth = new float[distanceM.Length];
        for (var y = 0; y < raster.Rows; y++)
            for (var x = 0; x < raster.Columns; x++) smooth[(y * raster.Columns) + x] = Mean(raster, distanceM, x, y);
        return smooth;
    }

    private static float Mean(RidgeRaster raster, float[] distanceM, int x, int y)
    {
        var here = At(x, y);
        if (here == 0) return 0;
        var (sum, count) = (0f, 0);
        // Opposite pixels count together or not at all, so that a straight slope stays where it is.
        for (var dy = 0; dy <= SmoothingPx; dy++)
        {
            for (var dx = -SmoothingPx; dx <= SmoothingPx; dx++)
            {
                var (a, b) = (At(x + dx, y + dy), At(x - dx, y - dy));
                if (Math.Abs(a - here) > SameSlope * here || Math.Abs(b - here) > SameSlope * here) continue;
                (sum, count) = (sum + a + b, count + 2);
            }
        }
        return sum / count;

        float At(int column, int row) =>
            column < 0 || column >= raster.Columns || row < 0 || row >= raster.Rows ? 0 : distanceM[(row * raster.Columns) + column];
    }
}
