using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>What is visible on a bearing, step by step, to hold the fast way against.</summary>
internal static class SlowSurface
{
    public static (List<VisibleSample> Samples, double GridEdgeM) Along(ElevationGrid grid, SightModel model, Place eye, Azimuth bearing)
    {
        var path = new CellPath(grid.Posts);
        path.Aim(eye.Point.Latitude.Radians, eye.Point.Longitude.Radians, bearing.Radians);
        var (stepM, eyeM, drop) = (grid.Posts.CellSize.Metres / 2, eye.Height.Metres, model.DropPerMetre);
        var (samples, greatest) = (new List<VisibleSample>(), double.NegativeInfinity);
        for (var step = 2; ; step++)
        {
            var distanceM = step * stepM;
            var cell = path.At(distanceM);
            if (!(cell.X >= 0 && cell.X <= grid.Posts.Columns - 1 && cell.Y >= 0 && cell.Y <= grid.Posts.Rows - 1)) return (samples, distanceM - stepM);
            double heightM = (float)grid.HeightAtCells(cell.X, cell.Y);
            var slope = (heightM - eyeM) / distanceM;
            var tangent = slope - (distanceM * drop * (1 + (slope * slope)));
            if (!(tangent > greatest)) continue;
            greatest = tangent;
            samples.Add(new VisibleSample(distanceM, heightM, Math.Atan(slope) - (distanceM * drop)));
        }
    }
}
