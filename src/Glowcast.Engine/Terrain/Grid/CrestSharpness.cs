namespace Glowcast.Engine.Terrain;

internal delegate ReadOnlySpan<float> HeightsOfRow(int row);

/// <summary>How sharp the crests of a grid are, by its own posts: what tells how much of a crest a coarser net loses.</summary>
internal static class CrestSharpness
{
    // So many posts are enough of any grid.
    private const int PostsAsked = 1_000_000;

    private static readonly (int Down, int Across)[] Directions = [(0, 1), (1, 0), (1, 1), (1, -1)];

    /// <summary>By how much posts that stand above both neighbours, on any line through them, stand above the mean of those two [m]: the
    /// root mean square, the sharpest line of each counted. 0 where nothing stands out.</summary>
    /// <param name="heights">Of a row, from west to east [m].</param>
    public static double RmsDropM(int rows, int columns, HeightsOfRow heights)
    {
        var every = (int)Math.Max(1, (long)rows * columns / PostsAsked);
        var (squares, count) = (0.0, 0);
        for (var row = 1; row < rows - 1; row += every)
        {
            for (var column = 1; column < columns - 1; column++)
            {
                if (DropM(heights, row, column) is not (> 0 and var drop)) continue;
                squares += drop * drop;
                count++;
            }
        }
        return count > 0 ? Math.Sqrt(squares / count) : 0;
    }

    private static double DropM(HeightsOfRow heights, int row, int column)
    {
        var (height, sharpest) = (heights(row)[column], 0.0);
        foreach (var (down, across) in Directions)
        {
            var (one, other) = (heights(row + down)[column + across], heights(row - down)[column - across]);
            if (height > one && height > other) sharpest = Math.Max(sharpest, height - ((one + other) / 2));
        }
        return sharpest;
    }
}
