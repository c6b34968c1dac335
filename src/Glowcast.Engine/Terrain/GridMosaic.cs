using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Joins tiles into a single grid; where they are of different nets, on that of the finest. Where no tile lies there is a hole.</summary>
public static class GridMosaic
{

    // Tiles whose posts miss one another by more than this share of a cell are not of one net.
    private const double Slack = 1e-3;

    // Heights of neighbouring tiles may differ on their common edge by this much.
    private const double MostStepM = 50;

    /// <exception cref="BadInputException">No tile, tiles that disagree where they meet or count heights from different levels, or too many posts.</exception>
    public static ElevationGrid Join(IReadOnlyList<ElevationGrid> tiles)
    {
        ArgumentNullException.ThrowIfNull(tiles);
        if (tiles.Count == 0) throw new BadInputException("grids", "No elevation grid is given; name at least one file.");
        if (tiles.Count == 1) return tiles[0];
        var datum = DatumOf(tiles);
        var nets = ByNet(tiles).ConvertAll(JoinNet);
        if (nets.Count == 1) return Named(nets[0].Posts, nets[0].Heights);
        var (posts, heights) = MixedMosaic.OnFinest(nets.Select(net => Named(net.Posts, net.Heights)));
        return Named(posts, heights);

        ElevationGrid Named(GridPosts posts, float[] heights) => new(posts, heights, string.Join(" + ", tiles.Select(tile => tile.Name)), datum);
    }

    /// <summary>The one level that all name; null where some do not.</summary>
    private static string? DatumOf(IReadOnlyList<ElevationGrid> tiles)
    {
        var named = tiles.FirstOrDefault(tile => tile.VerticalDatum is not null);
        if (named is null) return null;
        if (tiles.FirstOrDefault(tile => tile.VerticalDatum is not null && tile.VerticalDatum != named.VerticalDatum) is { } other)
            throw new BadInputException("grids", $"{named.Name} counts heights from {named.VerticalDatum} and {other.Name} from {other.VerticalDatum}; all must count from one level. Convert one of them.");
        return tiles.All(tile => tile.VerticalDatum is not null) ? named.VerticalDatum : null;
    }

    private static List<List<ElevationGrid>> ByNet(IReadOnlyList<ElevationGrid> tiles)
    {
        var nets = new List<List<ElevationGrid>>();
        foreach (var tile in tiles)
        {
            if (nets.Find(net => IsOfOneNet(net[0].Posts, tile.Posts)) is { } found) found.Add(tile);
            else nets.Add([tile]);
        }
        return nets;
    }

    private static bool IsOfOneNet(GridPosts one, GridPosts other)
    {
        if (one.Projection != other.Projection || !Same(one.RowStep, other.RowStep) || !Same(one.ColumnStep, other.ColumnStep)) return false;
        var (x, y) = Offset(one, other);
        return Math.Abs(x - Math.Round(x)) <= Slack && Math.Abs(y - Math.Round(y)) <= Slack;
    }

    private static (GridPosts Posts, float[] Heights) JoinNet(List<ElevationGrid> tiles)
    {
        var posts = Around(tiles);
        var heights = new float[posts.Rows * posts.Columns];
        Array.Fill(heights, float.NaN);
        foreach (var tile in tiles) Lay(tile, posts, heights);
        return (posts, heights);
    }

    private static GridPosts Around(List<ElevationGrid> tiles)
    {
        var first = tiles[0].Posts;
        var offsets = tiles.Select(tile => (At: Offset(first, tile.Posts), tile.Posts)).ToList();
        var left = (long)Math.Round(offsets.Min(tile => tile.At.X));
        var top = (long)Math.Round(offsets.Min(tile => tile.At.Y));
        var right = (long)Math.Round(offsets.Max(tile => tile.At.X + tile.Posts.Columns - 1));
        var bottom = (long)Math.Round(offsets.Max(tile => tile.At.Y + tile.Posts.Rows - 1));
        var (rows, columns) = (bottom - top + 1, right - left + 1);
        if (rows > ElevationGrid.MostPosts / columns)
            throw new BadInputException("grids", $"Together the tiles span {columns} × {rows} posts; at most {ElevationGrid.MostPosts} can be held. Give fewer tiles, nearer to one another.");
        return first.Extended((int)-left, (int)-top, (int)rows, (int)columns);
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
