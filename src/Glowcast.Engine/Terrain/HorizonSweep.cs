using System.Runtime.Intrinsics;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The terrain horizon in one direction for every post of a grid, or for many places in it, far faster than ray
/// by ray.</summary>
/// <remarks>
/// One direction means one true azimuth: each place looks along its own geodesic of that azimuth, as the exact ray does.
/// The ground near the place, on the first <see cref="NearCells"/> cells of the way, is walked exactly, eight places at
/// once. Where to look for a farther horizon is told by a linear sweep over lines beside the place
/// (<see cref="SweepLines"/>); there the place's own ray is walked exactly again. So an answer is the angle of true ground
/// on the ray and never above the exact horizon; it is below where the lines pass by the ground that stands highest.
/// </remarks>
public sealed class HorizonSweep
{
    /// <summary>The part of each ray that is walked from cell to cell.</summary>
    public const int NearCells = 12;

    private const int BlockRows = 16;
    private const int BlockColumns = 128;
    private const int Window = 2;

    private readonly ElevationGrid grid;
    private readonly SightModel model;
    private readonly double nearestM;
    private readonly float drop;
    private readonly Lazy<float[]> transposed;
    private readonly ushort[] candidates;

    public HorizonSweep(ElevationGrid grid, SightModel model)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentNullException.ThrowIfNull(model);
        if (Math.Max(grid.Posts.Rows, grid.Posts.Columns) >= SweepLines.None)
            throw new ArgumentException($"A grid to be swept has fewer than {SweepLines.None} rows and columns.", nameof(grid));
        (this.grid, this.model) = (grid, model);
        (nearestM, drop) = (grid.Posts.CellSize.Metres, (float)model.DropPerMetre);
        transposed = new Lazy<float[]>(() => Transposed(grid));
        candidates = new ushort[grid.Heights.Length];
    }

    /// <summary>The horizon of every post.</summary>
    /// <param name="azimuth">True, at each post.</param>
    /// <param name="horizonRad">Row-major, one apparent angle [rad] per post; NaN where the post is a hole or no ground
    /// stands before it.</param>
    public void Run(Azimuth azimuth, Memory<float> horizonRad)
    {
        if (horizonRad.Length != grid.Heights.Length)
            throw new ArgumentException($"The grid has {grid.Heights.Length} posts; there is room for {horizonRad.Length}.", nameof(horizonRad));
        var axes = SweepAxes.For(grid.Posts, azimuth);
        var nearSteps = SweepFarField(axes, azimuth);
        var (down, across) = ((axes.Rows + BlockRows - 1) / BlockRows, (axes.Columns + BlockColumns - 1) / BlockColumns);
        Parallel.For(0, down, () => new SweepNear(), (band, _, near) =>
        {
            for (var i = 0; i < across; i++) Block(axes, azimuth, nearSteps, band * BlockRows, i * BlockColumns, near, horizonRad.Span);
            return near;
        }, _ => { });
    }

    private int SweepFarField(SweepAxes axes, Azimuth azimuth)
    {
        var middle = new Cell((axes.Columns - 1) / 2.0, (axes.Rows - 1) / 2.0);
        var nearSteps = (int)Math.Ceiling(SweepPath.From(grid.Posts, axes, azimuth, middle, NearCells).StepsIn(NearCells * nearestM));
        new SweepLines(grid, axes.ByRows ? null : transposed.Value, axes, azimuth, model, nearSteps, candidates).Run();
        return nearSteps;
    }

    private void Block(SweepAxes axes, Azimuth azimuth, int nearSteps, int row, int column, SweepNear near, Span<float> horizonRad)
    {
        var (endRow, endColumn) = (Math.Min(row + BlockRows, axes.Rows), Math.Min(column + BlockColumns, axes.Columns));
        var path = SweepPath.From(grid.Posts, axes, azimuth, new Cell((column + endColumn - 1) / 2.0, (row + endRow - 1) / 2.0), axes.Majors - 1);
        near.Aim(axes, path, nearestM, nearSteps, model.DropPerMetre);
        var lanes = new SweepPathLanes(path);
        for (var r = row; r < endRow; r++)
        {
            for (var c = column; c < endColumn; c += Vector256<float>.Count)
                Packet(axes, lanes, near, nearSteps, r, Math.Min(c, Math.Max(0, endColumn - Vector256<float>.Count)), horizonRad);
        }
    }

    private void Packet(SweepAxes axes, SweepPathLanes path, SweepNear near, int nearSteps, int row, int column, Span<float> horizonRad)
    {
        var count = Math.Min(Vector256<float>.Count, axes.Columns - column);
        var post = (row * axes.Columns) + column;
        var columns = Vector256.Min(Vector256.Create(column) + Vector256<int>.Indices, Vector256.Create(axes.Columns - 1));
        var rows = Vector256.Create(row);
        var heights = grid.Heights;
        Span<float> eyeM = stackalloc float[Vector256<float>.Count];
        heights.Slice(post, count).CopyTo(eyeM);
        var eyes = new SweepEyes(axes.ByRows ? rows : columns, axes.ByRows ? columns : rows, default, default, Vector256.Create<float>(eyeM));
        var rays = new SweepRays(heights, axes, path, eyes, drop, (float)nearestM);
        var reach = near.Reach;
        var isOpen = row + reach.Top >= 0 && row + reach.Bottom < axes.Rows && column + reach.Left >= 0 && column + 7 + reach.Right < axes.Columns;
        var best = isOpen ? near.Highest(heights, post) : Near(rays, axes, eyes, nearSteps);
        best = Far(rays, axes, eyes, nearSteps, best);
        if (model.BeyondGrid is { } beyond) best = SweepTangent.Greater(best, rays.Beyond((float)beyond.Metres));
        var angle = SweepTangent.Angle(best);
        for (var i = 0; i < count; i++)
            horizonRad[post + i] = float.IsNaN(eyeM[i]) || float.IsInfinity(best[i]) ? float.NaN : angle[i];
    }

    private static Vector256<float> Near(in SweepRays rays, SweepAxes axes, in SweepEyes eyes, int nearSteps)
    {
        var best = Vector256.Create(float.NegativeInfinity);
        for (var step = 0; step < nearSteps; step++)
            best = SweepTangent.Greater(best, rays.Between(eyes.Major + Vector256.Create(step * axes.Forward)));
        return best;
    }

    private Vector256<float> Far(in SweepRays rays, SweepAxes axes, in SweepEyes eyes, int nearSteps, Vector256<float> best)
    {
        Span<int> left = stackalloc int[Vector256<int>.Count];
        Span<int> right = stackalloc int[Vector256<int>.Count];
        for (var i = 0; i < Vector256<int>.Count; i++)
        {
            var (major, minor) = (eyes.Major[i], eyes.Minor[i]);
            var at = (major * axes.Minors) + minor;
            left[i] = minor > 0 ? candidates[at - 1] : SweepLines.None;
            right[i] = minor < axes.Minors - 1 ? candidates[at] : SweepLines.None;
        }
        var (a, b) = (Vector256.Create<int>(left), Vector256.Create<int>(right));
        var (farBest, farAt) = (Vector256.Create(float.NegativeInfinity), a);
        Look(rays, a, ref farBest, ref farAt);
        if (!Vector256.EqualsAll(a, b)) Look(rays, b, ref farBest, ref farAt);
        // A line may leave the grid before the ray does: the ray's last steps are looked at in any case.
        Look(rays, rays.LastStep, ref farBest, ref farAt);
        best = SweepTangent.Greater(best, rays.Between(farAt));
        return SweepTangent.Greater(best, rays.Between(farAt - Vector256.Create(axes.Forward)));
    }

    private static void Look(in SweepRays rays, Vector256<int> around, ref Vector256<float> best, ref Vector256<int> at)
    {
        for (var offset = -Window; offset <= Window; offset++)
        {
            var major = around + Vector256.Create(offset);
            var tangent = rays.At(major);
            var isBetter = Vector256.GreaterThan(tangent, best);
            best = Vector256.ConditionalSelect(isBetter, tangent, best);
            at = Vector256.ConditionalSelect(isBetter.AsInt32(), major, at);
        }
    }

    private static float[] Transposed(ElevationGrid grid)
    {
        const int Tile = 32;
        var (rows, columns) = (grid.Posts.Rows, grid.Posts.Columns);
        var heights = grid.Heights;
        var turned = new float[heights.Length];
        for (var row = 0; row < rows; row += Tile)
            for (var column = 0; column < columns; column += Tile)
                for (var r = row; r < Math.Min(row + Tile, rows); r++)
                    for (var c = column; c < Math.Min(column + Tile, columns); c++)
                        turned[(c * rows) + r] = heights[(r * columns) + c];
        return turned;
    }
}
