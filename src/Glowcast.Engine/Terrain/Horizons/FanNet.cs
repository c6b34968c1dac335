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
    private readonly KnotNet<RayWays?[]> knots;

    public FanNet(GridPosts posts, FanDirections directions)
    {
        (this.posts, this.directions) = (posts, directions);
        Packets = directions.Packets(posts);
        knots = new KnotNet<RayWays?[]>(posts, knot => [.. Packets.Select(packet => Ways(packet, knot))]);
    }

    public IReadOnlyList<FanPacket> Packets { get; }

    /// <summary>The ways from the places of one block.</summary>
    public Mesh For(FanBlock block) => new(knots.For(block));

    private RayWays? Ways(FanPacket packet, Cell knot)
    {
        var paths = new RayWay[packet.Count];
        var steps = packet.Axes.Majors - 1;
        for (var i = 0; i < paths.Length; i++)
        {
            if (RayWay.Of(posts, packet.Axes, directions[packet.First + i], knot, steps) is not { } path) return null;
            paths[i] = path;
        }
        return new RayWays(paths, steps, posts.CellSize.Metres);
    }

    /// <summary>Four knots, and the ways from them, packet by packet.</summary>
    internal sealed class Mesh(KnotMesh<RayWays?[]> knots)
    {
        /// <summary>Null where a way is not told by cubics, and each ray must be gone for itself.</summary>
        public RayWays? Ways(int packet, Cell from)
        {
            var (down, across) = knots.Between(from);
            return (knots.IsColumn
                ? (knots.TopLeft[packet], knots.BottomLeft[packet])
                : (Between(knots.TopLeft[packet], knots.TopRight[packet], across), Between(knots.BottomLeft[packet], knots.BottomRight[packet], across))) is ({ } upper, { } lower)
                ? RayWays.Between(upper, lower, down)
                : null;
        }

        private static RayWays? Between(in RayWays? one, in RayWays? other, float share) =>
            one is { } first && other is { } second ? RayWays.Between(first, second, share) : null;
    }
}
