using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Tiles whose posts are those of a single net.</summary>
internal sealed class TilesOfNet
{
    // Tiles whose posts miss one another by more than this share of a cell are not of one net.
    private const double Slack = 1e-3;

    // Heights of neighbouring tiles may differ on their common edge by this much.
    private const double MostStepM = 50;

    private readonly List<GridSource> tiles;

    private TilesOfNet(GridSource first) => tiles = [first];

    /// <summary>The names of the tiles, to tell them to a user.</summary>
    public string Name => string.Join(" + ", tiles.Select(tile => tile.Name));

    public Length CellSize => tiles[0].Posts.CellSize;

    public static List<TilesOfNet> Sort(IReadOnlyList<GridSource> tiles)
    {
        var nets = new List<TilesOfNet>();
        foreach (var tile in tiles)
        {
            if (nets.Find(net => IsOfOneNet(net.tiles[0].Posts, tile.Posts)) is { } found) found.tiles.Add(tile);
            else nets.Add(new TilesOfNet(tile));
        }
        return nets;
    }

    /// <summary>Joins the tiles, as far as they are wanted and can be held.</summary>
    public JoinedGround Join(GridReading reading)
    {
        var whole = Around();
        var posts = GridCut.ToWhatCanBeHeld(GridCut.WithinReach(whole, reading), reading, Name);
        return new JoinedGround(posts, Join(posts), posts != whole);
    }

    /// <summary>Lays the tiles onto posts of their own net.</summary>
    public float[] Join(GridPosts posts)
    {
        var heights = new float[posts.Rows * posts.Columns];
        Array.Fill(heights, float.NaN);
        var faults = new Faults();
        foreach (var tile in tiles)
        {
            try
            {
                Lay(tile, posts, heights);
            }
            catch (BadInputException bad)
            {
                foreach (var fault in bad.Faults) faults.Add(fault.Field, fault.Message);
            }
        }
        faults.ThrowIfAny();
        return heights;
    }

    /// <summary>The posts of all tiles and what lies between them.</summary>
    public GridPosts Around()
    {
        var first = tiles[0].Posts;
        if (tiles.Count == 1) return first;
        var offsets = tiles.ConvertAll(tile => (At: Offset(first, tile.Posts), tile.Posts));
        var (left, top) = (Math.Round(offsets.Min(tile => tile.At.X)), Math.Round(offsets.Min(tile => tile.At.Y)));
        var right = Math.Round(offsets.Max(tile => tile.At.X + tile.Posts.Columns - 1));
        var bottom = Math.Round(offsets.Max(tile => tile.At.Y + tile.Posts.Rows - 1));
        return GridCut.Spanning(first, left, top, right, bottom);
    }

    private static void Lay(GridSource tile, GridPosts posts, float[] heights)
    {
        var (x, y) = Offset(posts, tile.Posts);
        var (left, top) = ((int)Math.Round(x), (int)Math.Round(y));
        tile.Read(GridWindow.Whole(tile.Posts).Common(new GridWindow(-left, -top, posts.Columns, posts.Rows)), (row, column, source) =>
        {
            var target = heights.AsSpan(((top + row) * posts.Columns) + left + column, source.Length);
            for (var i = 0; i < source.Length; i++)
            {
                if (float.IsNaN(source[i])) continue;
                if (Math.Abs(target[i] - source[i]) > MostStepM)
                    throw new BadInputException("grids", $"{tile.Name} disagrees with another tile by {Math.Abs(target[i] - source[i]):0} m at {posts.ToPoint(left + column + i, top + row)}; tiles must agree within {MostStepM} m where they meet.");
                target[i] = source[i];
            }
        });
    }

    private static bool IsOfOneNet(GridPosts one, GridPosts other)
    {
        if (one.Projection != other.Projection || !Same(one.RowStep, other.RowStep) || !Same(one.ColumnStep, other.ColumnStep)) return false;
        var (x, y) = Offset(one, other);
        return Math.Abs(x - Math.Round(x)) <= Slack && Math.Abs(y - Math.Round(y)) <= Slack;
    }

    private static (double X, double Y) Offset(GridPosts from, GridPosts to)
    {
        // The shorter way round the earth, so that tiles on both sides of the date line are neighbours.
        var east = from.Projection is null ? Math.IEEERemainder(to.Left - from.Left, 360) : to.Left - from.Left;
        return (east / from.ColumnStep, (from.Top - to.Top) / from.RowStep);
    }

    private static bool Same(double a, double b) => Math.Abs(a - b) < 1e-9 * a;
}

/// <summary>Tiles laid onto one net.</summary>
/// <param name="IsCut">The tiles reach farther than the net.</param>
internal sealed record JoinedGround(GridPosts Posts, float[] Heights, bool IsCut);
