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

    /// <summary>Two metres above the highest post.</summary>
    public static Place Summit(ElevationGrid grid)
    {
        var (best, at) = (float.NegativeInfinity, (Row: 0, Column: 0));
        for (var row = 0; row < grid.Posts.Rows; row++)
        {
            var heights = grid.Row(row);
            for (var column = 0; column < heights.Length; column++)
                if (heights[column] > best) (best, at) = (heights[column], (row, column));
        }
        return new Place(grid.Posts.ToPoint(at.Column, at.Row), Length.FromMetres(best + 2));
    }
}
