using Glowcast.Engine.Light;

namespace Glowcast.Field.Pictures;

/// <summary>Spreads the light of patches over the pixels of a ridge raster.</summary>
/// <remarks>Each pixel takes the patches above and below it in the two nearest columns of the chart; near ones of the same slope
/// count most. The page does the same.</remarks>
internal sealed class PatchMap
{
    private readonly RidgeRaster raster;
    private readonly double columnDeg;
    private readonly IReadOnlyList<Middle[]> columns;

    public PatchMap(RidgeRaster raster, Scene scene)
    {
        (this.raster, columnDeg) = (raster, scene.View.ColumnWidth.Degrees);
        columns = [.. Enumerable.Range(0, scene.Columns).Select(column => scene.Patches.Index()
            .Where(patch => patch.Item.Column == column)
            .Select(patch => new Middle(patch.Index, (patch.Item.Bottom.Degrees + patch.Item.Top.Degrees) / 2, patch.Item.Distance.Metres))
            .OrderByDescending(middle => middle.AltitudeDeg).ToArray())];
    }

    /// <param name="light">Of each patch.</param>
    public double At(int x, int y, double distanceM, float[] light)
    {
        var along = Math.Clamp(((x + 0.5) * raster.PixelDeg / columnDeg) - 0.5, 0, columns.Count - 1);
        var left = (int)along;
        var right = Math.Min(columns.Count - 1, left + 1);
        var (sum, weight) = (0.0, 0.0);
        Weigh(columns[left], 1 - (along - left));
        Weigh(columns[right], along - left);
        return weight > 0 ? sum / weight : 0;

        void Weigh(Middle[] column, double share)
        {
            if (column.Length == 0) return;
            var altitudeDeg = raster.AltitudeDegOf(y);
            var (above, below) = Around(column, altitudeDeg);
            var gap = above.AltitudeDeg - below.AltitudeDeg;
            var t = gap > 0 ? Math.Clamp((above.AltitudeDeg - altitudeDeg) / gap, 0, 1) : 0;
            Add(above, share * (1 - t));
            Add(below, share * t);
        }

        void Add(Middle middle, double share)
        {
            var apart = Math.Log(middle.DistanceM / distanceM) / GroundSlopes.SameSlope;
            // A patch of another slope still counts a little, for ground that has no patch of its own.
            var counts = (share * (Math.Exp(-apart * apart) + 1e-3)) + 1e-6;
            (sum, weight) = (sum + (counts * light[middle.Patch]), weight + counts);
        }
    }

    private static (Middle Above, Middle Below) Around(Middle[] column, double altitudeDeg)
    {
        var (above, below) = (0, column.Length - 1);
        while (below - above > 1)
        {
            var middle = (above + below) / 2;
            if (column[middle].AltitudeDeg >= altitudeDeg) above = middle;
            else below = middle;
        }
        return (column[above], column[below]);
    }

    private readonly record struct Middle(int Patch, double AltitudeDeg, double DistanceM);
}
