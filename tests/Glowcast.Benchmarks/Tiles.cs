using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Benchmarks;

internal static class Tiles
{
    /// <summary>All but a hair, for a span never meets itself.</summary>
    public static BearingSpan AllRound { get; } = BearingSpan.FromDegrees(0, 359.9999);

    public static string Invented
    {
        get
        {
            var folder = new DirectoryInfo(AppContext.BaseDirectory);
            while (!File.Exists(Path.Combine(folder.FullName, "Glowcast.sln"))) folder = folder.Parent!;
            return Path.Combine(folder.FullName, "terrain-samples", "N46W032.hgt");
        }
    }

    public static ElevationGrid Read(string path)
    {
        using var stream = File.OpenRead(path);
        return GridFile.Read(stream, Path.GetFileName(path));
    }

    /// <summary>A tile beside mirror images of itself, so that nothing jumps at their seams.</summary>
    /// <param name="finer">How many steps one of the tile's becomes; the ground between is its own bilinear surface.</param>
    public static ElevationGrid Repeated(ElevationGrid tile, int across, int finer)
    {
        var cells = tile.Posts.Rows - 1;
        var size = (cells * across * finer) + 1;
        var heights = new float[size * size];
        Parallel.For(0, size, row =>
        {
            var (north, south, v) = At(row);
            var upper = tile.Row(north);
            var lower = tile.Row(south);
            for (var column = 0; column < size; column++)
            {
                var (west, east, u) = At(column);
                heights[(row * size) + column] = ((1 - v) * (((1 - u) * upper[west]) + (u * upper[east]))) + (v * (((1 - u) * lower[west]) + (u * lower[east])));
            }
        });
        var posts = new GridPosts(
            size, size, tile.Posts.NorthDeg, tile.Posts.WestDeg, tile.Posts.LatitudeStepDeg!.Value / finer, tile.Posts.LongitudeStepDeg!.Value / finer);
        return new ElevationGrid(posts, heights, $"{across} × {across} tiles");

        (int Before, int After, float Share) At(int i)
        {
            var (whole, rest) = Math.DivRem(i, finer);
            return (Mirrored(whole), Mirrored(whole + 1), rest / (float)finer);
        }

        int Mirrored(int i) => i / cells % 2 == 0 ? i % cells : cells - (i % cells);
    }

    /// <summary>Two metres above the highest post.</summary>
    public static Place Summit(ElevationGrid grid) => SummitNear(grid, 0, 0, int.MaxValue);

    /// <summary>The same among the posts not farther than some steps from one of them.</summary>
    public static Place SummitNear(ElevationGrid grid, int middleRow, int middleColumn, int within)
    {
        var (best, at) = (float.NegativeInfinity, (Row: 0, Column: 0));
        for (var row = 0; row < grid.Posts.Rows; row++)
        {
            if (Math.Abs(row - middleRow) > within) continue;
            var heights = grid.Row(row);
            for (var column = 0; column < heights.Length; column++)
                if (heights[column] > best && Math.Abs(column - middleColumn) <= within) (best, at) = (heights[column], (row, column));
        }
        return new Place(grid.Posts.ToPoint(at.Column, at.Row), Length.FromMetres(best + 2));
    }
}
