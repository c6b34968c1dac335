using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Joins tiles of one net into a single grid. Where no tile lies there is a hole.</summary>
public static class GridMosaic
{

    // Tiles whose posts miss one another by more than this share of a cell are not of one net.
    private const double Slack = 1e-3;

    // Heights of neighbouring tiles may differ on their common edge by this much.
    private const double MostStepM = 50;

    /// <exception cref="BadInputException">No tile, tiles of different nets, or tiles that disagree where they meet.</exception>
    public static ElevationGrid Join(IReadOnlyList<ElevationGrid> tiles)
    {
        ArgumentNullException.ThrowIfNull(tiles);
        if (tiles.Count == 0) throw new BadInputException("grids", "No elevation grid is given; name at least one file.");
        if (tiles.Count == 1) return tiles[0];
        MustShareOneNet(tiles);
        var posts = Around(tiles);
        var heights = new float[posts.Rows * posts.Columns];
        Array.Fill(heights, float.NaN);
        foreach (var tile in tiles) Lay(tile, posts, heights);
        return new ElevationGrid(posts, heights, string.Join(" + ", tiles.Select(tile => tile.Name)));
    }

    private static void MustShareOneNet(IReadOnlyList<ElevationGrid> tiles)
    {
        var first = tiles[0];
        var faults = new Faults();
        foreach (var tile in tiles.Skip(1))
        {
            var (x, y) = Offset(first.Posts, tile.Posts);
            if (!Same(tile.Posts.RowStep, first.Posts.RowStep) || !Same(tile.Posts.ColumnStep, first.Posts.ColumnStep))
                faults.Add("grids", $"{tile.Name} has another spacing than {first.Name}; only tiles of one spacing can be joined.");
            else if (Math.Abs(x - Math.Round(x)) > Slack || Math.Abs(y - Math.Round(y)) > Slack)
                faults.Add("grids", $"The posts of {tile.Name} do not fall on those of {first.Name}; only tiles of one net can be joined.");
        }
        faults.ThrowIfAny();
    }

    private static GridPosts Around(IReadOnlyList<ElevationGrid> tiles)
    {
        var first = tiles[0].Posts;
        var offsets = tiles.Select(tile => (At: Offset(first, tile.Posts), tile.Posts)).ToList();
        var left = (int)Math.Round(offsets.Min(tile => tile.At.X));
        var top = (int)Math.Round(offsets.Min(tile => tile.At.Y));
        var right = (long)Math.Round(offsets.Max(tile => tile.At.X + tile.Posts.Columns - 1));
        var bottom = (long)Math.Round(offsets.Max(tile => tile.At.Y + tile.Posts.Rows - 1));
        var (rows, columns) = (bottom - top + 1, right - left + 1);
        if (rows * columns > ElevationGrid.MostPosts)
            throw new BadInputException("grids", $"Together the tiles span {columns} × {rows} posts; at most {ElevationGrid.MostPosts} can be held. Give fewer tiles, nearer to one another.");
        return first.Extended(-left, -top, (int)rows, (int)columns);
    }

    private static void Lay(ElevationGrid tile, GridPosts posts, float[] heights)
    {
        var (x, y) = Offset(posts, tile.Posts);
        var (left, top) = ((int)Math.Round(x), (int)Math.Round(y));
        for (var row = 0; row < tile.Posts.Rows; row++)
        {
            var target = heights.AsSpan(((top + row) * posts.Columns) + left, tile.Posts.Columns);
            var source = tile.Row(row);
            for (var column = 0; column < source.Length; column++)
            {
                if (float.IsNaN(source[column])) continue;
                if (Math.Abs(target[column] - source[column]) > MostStepM)
                    throw new BadInputException("grids", $"{tile.Name} disagrees with another tile by {Math.Abs(target[column] - source[column]):0} m at {posts.ToPoint(left + column, top + row)}; tiles must agree within {MostStepM} m where they meet.");
                target[column] = source[column];
            }
        }
    }

    private static (double X, double Y) Offset(GridPosts from, GridPosts to)
    {
        // The shorter way round the earth, so that tiles on both sides of the date line are neighbours.
        var east = from.Projection is null ? Math.IEEERemainder(to.Left - from.Left, 360) : to.Left - from.Left;
        return (east / from.ColumnStep, (from.Top - to.Top) / from.RowStep);
    }

    private static bool Same(double a, double b) => Math.Abs(a - b) < 1e-9 * a;
}
