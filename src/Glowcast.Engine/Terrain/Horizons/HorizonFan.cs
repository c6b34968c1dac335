using System.Collections.Concurrent;
using System.Runtime.Intrinsics;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The terrain horizons of many places, each in many directions, far faster than ray by ray.</summary>
/// <remarks>
/// Eight directions of a place are looked at together (<see cref="FanSearch"/>), beginning with where the place before had its horizon there, and
/// where this one has it in the direction before. The ways of the rays are taken linearly between the knots of a wide net
/// (<see cref="FanNet"/>). The angles are those of the exact ray, in single precision: of every cell on the way, or, in half the time, of where the rays
/// cross the edges of cells. Then ground that stands higher between them may be missed, unless it is beside what stands highest: one horizon in a thousand
/// by more than 0.006°, the nearer to the place the more. Over holes so ragged that the edges of cells tell no longer where there is ground, each ray is
/// gone for itself.
/// </remarks>
public sealed class HorizonFan
{
    // So many places are looked from in one direction, one after another.
    private const int Together = 64;

    private readonly ElevationGrid grid;
    private readonly SightModel model;
    private readonly FanDirections directions;
    private readonly bool isExact;
    private readonly bool isRagged;
    private readonly FanGround byRows;
    private readonly FanGround byColumns;

    /// <param name="azimuths">True, at each place; in the order of the circle.</param>
    /// <param name="isExact">Whether every cell on the way is looked at, or only its edges.</param>
    public HorizonFan(ElevationGrid grid, SightModel model, IReadOnlyList<Azimuth> azimuths, bool isExact = false)
        : this(grid, model, FanDirections.All(azimuths), isExact)
    {
    }

    internal HorizonFan(ElevationGrid grid, SightModel model, FanDirections directions, bool isExact)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentNullException.ThrowIfNull(model);
        (this.grid, this.model, this.directions, this.isExact) = (grid, model, directions, isExact);
        isRagged = StrayEdges.AnyIn(grid);
        (byRows, byColumns) = (new FanGround(grid, byRows: true), new FanGround(grid, byRows: false));
    }

    /// <summary>All horizons.</summary>
    /// <param name="horizonRad">Places × azimuths, row-major: apparent angles [rad]; NaN where nothing stands before a place.</param>
    public void Run(IReadOnlyList<Place> places, Memory<float> horizonRad)
    {
        ArgumentNullException.ThrowIfNull(places);
        if (horizonRad.Length != (long)places.Count * directions.Count)
            throw new ArgumentException($"There are {places.Count} places and {directions.Count} directions; there is room for {horizonRad.Length} horizons.", nameof(horizonRad));
        Run(places, (place, found) => found.CopyTo(horizonRad.Span[(place * directions.Count)..]));
    }

    /// <param name="take">Given the place and its horizons, from many threads; any angle above a ceiling may stand for a greater one, and NaN
    /// for one below its floor.</param>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    internal void Run(IReadOnlyList<Place> places, TakeHorizons take, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        var blocks = FanBlock.Of(places, grid);
        var net = new FanNet(grid.Posts, directions);
        Vector256<float>[] beyondM = [.. net.Packets.Select(BeyondM)];
        var done = 0;
        Parallel.ForEach(Partitioner.Create(blocks, EnumerablePartitionerOptions.NoBuffering), AllProcessors.Until(cancel), () => new float[Together * directions.Count], (block, _, found) =>
        {
            var mesh = net.For(block);
            var lastM = new Vector256<float>[net.Packets.Count];
            Array.Fill(lastM, Vector256.Create(float.NaN));
            foreach (var some in block.Places.Chunk(Together))
            {
                Look(net, mesh, lastM, beyondM, some, places, found, cancel);
                for (var i = 0; i < some.Length; i++) take(some[i].Place, found.AsSpan(i * directions.Count, directions.Count));
            }
            progress?.Report((double)Interlocked.Add(ref done, block.Places.Count) / places.Count);
            return found;
        }, _ => { });
    }

    // One packet of directions after another, each for all the places: neighbours look at the same ground, which is still at hand then.
    private unsafe void Look(
        FanNet net, FanNet.Mesh mesh, Vector256<float>[] lastM, Vector256<float>[] beyondM, (int Place, Cell Cell)[] some, IReadOnlyList<Place> places, Span<float> horizonRad, CancellationToken cancel)
    {
        fixed (float* heights = grid.BareHeights)
        {
            var rays = new FanRays(heights, byRows, (float)model.DropPerMetre, (float)grid.Posts.CellSize.Metres);
            Span<float> besideM = stackalloc float[Together];
            besideM.Fill(float.NaN);
            for (var i = 0; i < net.Packets.Count; i++)
            {
                cancel.ThrowIfCancellationRequested();
                var (packet, axes) = (net.Packets[i], net.Packets[i].Axes);
                var ground = axes.ByRows ? byRows : byColumns;
                for (var j = 0; j < some.Length; j++)
                {
                    var (place, eye) = (places[some[j].Place], some[j].Cell);
                    var into = horizonRad.Slice((j * directions.Count) + packet.First, packet.Count);
                    if (isRagged || mesh.Ways(i, eye) is not { } ways)
                    {
                        LookByRay(packet, place, into);
                        continue;
                    }
                    rays.Aim(ground, ways, new FanEyes(axes, eye, (float)place.Height.Metres));
                    var search = new FanSearch(rays, ground.LastLevel, packet.Floor, packet.Ceiling, isExact);
                    search.Guess(lastM[i]);
                    search.Guess(Vector256.Create(besideM[j]));
                    search.Run();
                    lastM[i] = search.BestM;
                    besideM[j] = lastM[i][packet.Count - 1];
                    Write(rays, search.Best, packet, beyondM[i], into);
                }
            }
        }
    }

    // What stands past the edge in each direction of a packet.
    private Vector256<float> BeyondM(FanPacket packet)
    {
        Span<float> lanes = stackalloc float[Vector256<float>.Count];
        for (var i = 0; i < lanes.Length; i++) lanes[i] = (float)model.BeyondGrid.HeightM(directions[packet.First + Math.Min(i, packet.Count - 1)].Radians, grid);
        return Vector256.Create<float>(lanes);
    }

    private void LookByRay(FanPacket packet, Place place, Span<float> horizonRad)
    {
        var probe = new HorizonProbe(grid, model);
        probe.StandAt(place.Point.Latitude.Radians, place.Point.Longitude.Radians, place.Height.Metres);
        for (var i = 0; i < packet.Count; i++)
        {
            var horizon = probe.Find(directions[packet.First + i].Radians, Math.Atan(packet.Floor[i]), Math.Atan(packet.Ceiling[i]));
            horizonRad[i] = horizon.Found ? (float)horizon.AngleRad : float.NaN;
        }
    }

    private void Write(FanRays rays, Vector256<float> best, FanPacket packet, Vector256<float> beyondM, Span<float> horizonRad)
    {
        if (model.BeyondGrid.Kind != PastEdgeKind.Nothing) best = RayTangent.Greater(best, rays.Beyond(beyondM).Tangent);
        var isFound = Vector256.GreaterThan(best, packet.Floor);
        var angle = Vector256.ConditionalSelect(isFound, RayTangent.Angle(best), Vector256.Create(float.NaN));
        for (var i = 0; i < horizonRad.Length; i++) horizonRad[i] = angle[i];
    }
}

/// <summary>Takes the horizons of one place, a direction each [rad]; they are good until the call returns.</summary>
internal delegate void TakeHorizons(int place, ReadOnlySpan<float> horizonRad);
