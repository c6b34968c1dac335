using System.Runtime.Intrinsics;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The ground around many places, ready to be looked over along any ray.</summary>
/// <remarks>What is worked out for the first rays is kept for all later ones. Safe for many threads.</remarks>
internal sealed class RayGround
{
    private readonly KnotNet<WayTable> net;

    public RayGround(ElevationGrid grid, SightModel model, IReadOnlyList<Place> places)
    {
        (Grid, Model, Places) = (grid, model, places);
        Blocks = FanBlock.Of(places, grid);
        Sectors = new WaySectors(grid.Posts);
        IsRagged = StrayEdges.AnyIn(grid);
        (ByRows, ByColumns) = (new FanGround(grid, byRows: true), new FanGround(grid, byRows: false));
        net = new KnotNet<WayTable>(grid.Posts, knot => new WayTable(Sectors, knot));
    }

    public ElevationGrid Grid { get; }

    public SightModel Model { get; }

    public IReadOnlyList<Place> Places { get; }

    /// <summary>The places, those near to one another together.</summary>
    public IReadOnlyList<FanBlock> Blocks { get; }

    public WaySectors Sectors { get; }

    /// <summary>The edges of cells do not tell where there is ground.</summary>
    public bool IsRagged { get; }

    public FanGround ByRows { get; }

    public FanGround ByColumns { get; }

    /// <summary>Its height [m].</summary>
    public double HeightM(int place) => Places[place].Height.Metres;

    /// <summary>A place of a block, and how far from it the others are at most, as an angle at the centre of the earth [rad].</summary>
    public (Place Middle, double ReachRad) AreaOf(FanBlock block)
    {
        var middle = Places[block.Places[block.Places.Count / 2].Place];
        var (narrows, reachRad) = (middle.Point.Latitude.Cos(), 0.0);
        foreach (var (place, _) in block.Places)
        {
            var point = Places[place].Point;
            var northRad = (point.Latitude - middle.Point.Latitude).Radians;
            var eastRad = Math.IEEERemainder((point.Longitude - middle.Point.Longitude).Radians, Math.Tau) * Math.Max(narrows, point.Latitude.Cos());
            reachRad = Math.Max(reachRad, double.Hypot(northRad, eastRad));
        }
        // The ellipsoid turns a little faster in places.
        return (middle, 1.01 * reachRad);
    }

    public HorizonRays From(FanBlock block) => new(this, block, net.For(block));
}

/// <summary>A ray to be gone.</summary>
/// <param name="Member">The place from which it goes, of its block.</param>
/// <param name="AzimuthRad">True.</param>
/// <param name="FloorRad">No lower horizon is of interest.</param>
/// <param name="CeilingRad">Any higher one may be told for a higher one still.</param>
/// <param name="LikelyM">Where high ground is expected [m]; NaN for nowhere.</param>
internal readonly record struct RayAsked(int Member, double AzimuthRad, double FloorRad, double CeilingRad, double LikelyM);

/// <summary>The horizons along single rays from the places of one block, each in a direction of its own, eight at once.</summary>
/// <remarks>Every cell on the way is looked at in which ground could stand highest, and its highest point has a closed form, as with
/// <see cref="SightRay"/>; in single precision. Mutable, for one thread.</remarks>
internal sealed class HorizonRays(RayGround ground, FanBlock block, KnotMesh<WayTable> mesh)
{
    private const int Lanes = 8;

    private readonly HorizonProbe probe = new(ground.Grid, ground.Model);

    /// <summary>The number of a member of the block.</summary>
    public int PlaceOf(int member) => block.Places[member].Place;

    /// <param name="found">The greatest angle on each ray, the earth assumed past the grid's edge included.</param>
    public unsafe void Find(ReadOnlySpan<RayAsked> asked, Span<RayFound> found)
    {
        fixed (float* heights = ground.Grid.BareHeights)
        {
            var rays = new FanRays(heights, ground.ByRows, (float)ground.Model.DropPerMetre, NearestM);
            Span<int> together = stackalloc int[Lanes];
            for (var sector = 0; sector < ground.Sectors.Axes.Count; sector++)
            {
                var count = 0;
                for (var i = 0; i < asked.Length; i++)
                {
                    if (ground.Sectors.Of(asked[i].AzimuthRad).Sector != sector) continue;
                    together[count++] = i;
                    if (count < Lanes) continue;
                    Find(rays, ground.Sectors.Axes[sector], together, asked, found);
                    count = 0;
                }
                if (count > 0) Find(rays, ground.Sectors.Axes[sector], together[..count], asked, found);
            }
        }
    }

    private float NearestM => (float)ground.Grid.Posts.CellSize.Metres;

    private void Find(FanRays rays, RayAxes axes, ReadOnlySpan<int> together, ReadOnlySpan<RayAsked> asked, Span<RayFound> found)
    {
        Span<Cell> cells = stackalloc Cell[Lanes];
        Span<float> heightsM = stackalloc float[Lanes];
        Span<Vector256<float>> ways = stackalloc Vector256<float>[Lanes];
        Span<float> floors = stackalloc float[Lanes];
        Span<float> ceilings = stackalloc float[Lanes];
        Span<float> likelyM = stackalloc float[Lanes];
        Span<float> beyondM = stackalloc float[Lanes];
        var isTold = !ground.IsRagged;
        for (var lane = 0; lane < Lanes; lane++)
        {
            // Where there are fewer the last one stands for the rest.
            ref readonly var ray = ref asked[together[Math.Min(lane, together.Length - 1)]];
            (var place, cells[lane]) = block.Places[ray.Member];
            heightsM[lane] = (float)ground.Places[place].Height.Metres;
            beyondM[lane] = (float)ground.Model.BeyondGrid.HeightM(ray.AzimuthRad, ground.Grid);
            ways[lane] = Way(cells[lane], ray.AzimuthRad);
            isTold &= Vector256.EqualsAll(ways[lane], ways[lane]);
            (floors[lane], ceilings[lane], likelyM[lane]) = ((float)Math.Tan(ray.FloorRad), (float)Math.Tan(ray.CeilingRad), (float)ray.LikelyM);
        }
        if (!isTold)
        {
            foreach (var i in together) found[i] = OneByOne(asked[i]);
            return;
        }

        var over = axes.ByRows ? ground.ByRows : ground.ByColumns;
        rays.Aim(over, new RayWays(ways, NearestM), new FanEyes(axes, cells, heightsM));
        var floor = Vector256.Create<float>(floors);
        var search = new FanSearch(rays, over.LastLevel, floor, Vector256.Create<float>(ceilings), isExact: true);
        search.Guess(Vector256.Create<float>(likelyM));
        search.Run();
        var (best, metres, isBeyond) = (search.Best, search.BestM, Vector256<int>.Zero);
        if (ground.Model.BeyondGrid.Kind != PastEdgeKind.Nothing)
        {
            var (tangent, distanceM) = rays.Beyond(Vector256.Create<float>(beyondM));
            var isHigher = Vector256.GreaterThan(tangent, best);
            (best, metres) = (Vector256.ConditionalSelect(isHigher, tangent, best), Vector256.ConditionalSelect(isHigher, distanceM, metres));
            isBeyond = isHigher.AsInt32();
        }
        var (isFound, angle) = (Vector256.GreaterThan(best, floor).AsInt32(), RayTangent.Angle(best));
        for (var lane = 0; lane < together.Length; lane++)
            found[together[lane]] = isFound[lane] != 0 ? new RayFound(angle[lane], metres[lane], isBeyond[lane] != 0) : RayFound.None;
    }

    private Vector256<float> Way(Cell from, double azimuthRad)
    {
        var (_, node, share) = ground.Sectors.Of(azimuthRad);
        var (down, across) = mesh.Between(from);
        var (upper, lower) = (mesh.TopLeft.At(node, share), mesh.BottomLeft.At(node, share));
        if (!mesh.IsColumn) (upper, lower) = (Between(upper, mesh.TopRight.At(node, share), across), Between(lower, mesh.BottomRight.At(node, share), across));
        return Between(upper, lower, down);
    }

    private static Vector256<float> Between(Vector256<float> one, Vector256<float> other, float share) => one + ((other - one) * share);

    private RayFound OneByOne(in RayAsked ray)
    {
        var place = ground.Places[block.Places[ray.Member].Place];
        probe.StandAt(place.Point.Latitude.Radians, place.Point.Longitude.Radians, place.Height.Metres);
        var horizon = probe.Find(ray.AzimuthRad, ray.FloorRad, ray.CeilingRad);
        return horizon.Found ? new RayFound(horizon.AngleRad, horizon.DistanceM, horizon.DistanceM > probe.EdgeM) : RayFound.None;
    }
}

/// <summary>The greatest angle on a ray [rad], how far the ground is that has it [m], to a step, and whether that is the earth assumed past the grid's
/// edge; NaN where nothing stands above the floor.</summary>
internal readonly record struct RayFound(double AngleRad, double DistanceM, bool IsBeyondGrid)
{
    public static readonly RayFound None = new(double.NaN, double.NaN, false);

    public bool Found => !double.IsNaN(AngleRad);
}
