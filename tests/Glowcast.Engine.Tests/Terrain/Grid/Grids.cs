using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>Grids made for tests.</summary>
internal static class Grids
{
    /// <summary>One degree square with posts every 3″, its south-west corner at whole degrees.</summary>
    public static ElevationGrid Square(int southDeg, int westDeg, Func<int, int, double> heightOfRowAndColumn, int size = 1201)
    {
        var heights = new float[size * size];
        for (var row = 0; row < size; row++)
            for (var column = 0; column < size; column++)
                heights[(row * size) + column] = (float)heightOfRowAndColumn(row, column);
        return new ElevationGrid(new GridPosts(size, size, southDeg + 1, westDeg, 1.0 / (size - 1), 1.0 / (size - 1)), heights, "made for a test");
    }
}
