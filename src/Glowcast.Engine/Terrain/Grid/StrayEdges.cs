namespace Glowcast.Engine.Terrain;

/// <summary>Looks for neighbouring posts with heights between two cells of which neither is whole: ground by its posts, none by its cells.</summary>
internal static class StrayEdges
{
    public static bool AnyIn(ElevationGrid grid)
    {
        if (grid.Relief.Holes == 0) return false;
        var (rows, columns) = (grid.Posts.Rows, grid.Posts.Columns);
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                if (!IsGround(grid, row, column)) continue;
                if (IsStray(grid, row, column, down: 0, across: 1) || IsStray(grid, row, column, down: 1, across: 0)) return true;
            }
        }
        return false;
    }

    /// <summary>Whether the edge from a post to the next one stands between two cells that are not whole, or off the grid.</summary>
    private static bool IsStray(ElevationGrid grid, int row, int column, int down, int across) =>
        IsGround(grid, row + down, column + across)
        && !(IsGround(grid, row + across, column + down) && IsGround(grid, row + 1, column + 1))
        && !(IsGround(grid, row - across, column - down) && IsGround(grid, row + down - across, column + across - down));

    private static bool IsGround(ElevationGrid grid, int row, int column) =>
        (uint)row < (uint)grid.Posts.Rows && (uint)column < (uint)grid.Posts.Columns && !float.IsNaN(grid.BareHeights[(row * grid.Posts.Columns) + column]);
}
