using System.Collections.Concurrent;

namespace Glowcast.Engine.Terrain;

/// <summary>The ways of a fan's rays from anywhere in a grid: worked out at the knots of a wide net when they are first asked for, and taken
/// linearly between. Safe for many threads.</summary>
/// <remarks>
/// A way depends on where it begins through the convergence of the meridians and the length of a cell. Both change so evenly that between
/// knots of 64 cells of 3″ a way is told to a centimetre at 40 km. In latitude and longitude it depends on the latitude alone.
/// </remarks>
internal sealed class FanNet
{
    private readonly GridPosts posts;
    private readonly FanDirections directions;
    private readonly ConcurrentDictionary<(int Row, int Column), Lazy<RayWays?[]>> knots = new();

    public FanNet(GridPosts posts, FanDirections directions)
    {
        (this.posts, this.directions) = (posts, directions);
        Packets = directions.Packets(posts);
    }

    public IReadOnlyList<FanPacket> Packets { get; }

    /// <summary>The ways from the places of one block.</summary>
    public Mesh For(FanBlock block)
    {
        var (top, bottom) = (RowOf(block.Row), RowOf(block.Row + 1));
        var (left, right) = posts.Projection is null ? ((posts.Columns - 1) / 2, (posts.Columns - 1) / 2) : (ColumnOf(block.Column), ColumnOf(block.Column + 1));
        return new Mesh(top, left, bottom, right, At(top, left), At(top, right), At(bottom, left), At(bottom, right));
    }

    private int RowOf(int block) => Math.Min(block * FanBlock.Rows, posts.Rows - 1);

    private int ColumnOf(int block) => Math.Min(block * FanBlock.Columns, posts.Columns - 1);

    private RayWays?[] At(int row, int column) =>
        knots.GetOrAdd((row, column), knot => new Lazy<RayWays?[]>(() => [.. Packets.Select(packet => Ways(packet, new Cell(knot.Column, knot.Row)))])).Value;

    private RayWays? Ways(FanPacket packet, Cell knot)
    {
        var paths = new SweepPath[packet.Count];
        var steps = packet.Axes.Majors - 1;
        for (var i = 0; i < paths.Length; i++)
        {
            if (SweepPath.Of(posts, packet.Axes, directions[packet.First + i], knot, steps) is not { } path) return null;
            paths[i] = path;
        }
        return new RayWays(paths, steps, posts.CellSize.Metres);
    }

    /// <summary>Four knots, and the ways from them, packet by packet.</summary>
    internal sealed class Mesh(int top, int left, int bottom, int right, RayWays?[] topLeft, RayWays?[] topRight, RayWays?[] bottomLeft, RayWays?[] bottomRight)
    {
        /// <summary>Null where a way is not told by cubics, and each ray must be gone for itself.</summary>
        public RayWays? Ways(int packet, Cell from)
        {
            var (down, across) = (Share(from.Y, top, bottom), Share(from.X, left, right));
            return (left == right
                ? (topLeft[packet], bottomLeft[packet])
                : (Between(topLeft[packet], topRight[packet], across), Between(bottomLeft[packet], bottomRight[packet], across))) is ({ } upper, { } lower)
                ? RayWays.Between(upper, lower, down)
                : null;
        }

        private static RayWays? Between(in RayWays? one, in RayWays? other, float share) =>
            one is { } first && other is { } second ? RayWays.Between(first, second, share) : null;

        private static float Share(double at, int from, int to) => to > from ? (float)((at - from) / (to - from)) : 0;
    }
}
