using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Benchmarks;

/// <summary>Says for every post of a grid where its far horizon in one direction is to be looked for, in linear time.</summary>
/// <remarks>
/// The grid is cut along parallel lines of the wanted true azimuth, one to a cell across. On each line the ground far enough
/// from the eye is kept as its upper convex hull, on a stack, in heights z − κs², for which the tangent to the hull is the
/// horizon on the round earth (docs/model.md, section Terrain). Neighbouring eyes see nearly the same ground as their
/// horizon, so that the search for the tangent begins where the last one ended. Two steps are one point of the hull, the
/// higher of them: what is found is a place to look at, not an angle.
/// </remarks>
internal sealed class SweepLines
{
    public const ushort None = ushort.MaxValue;
    private const int Lanes = 16;
    private const int StepsPerPoint = 2;
    private const float Nothing = -1e30f;

    private readonly RayAxes axes;
    private readonly ElevationGrid grid;
    private readonly float[]? turned;
    private readonly int lagSteps;

    // Of the line through the middle of the grid, by steps outwards counted from its far end.
    private readonly int[] offsetCells;
    private readonly float[] fraction;
    private readonly float[] positionM;
    private readonly float[] dropM;

    private readonly ushort[] candidates;

    /// <param name="turned">The heights column by column, needed where a step leads from column to column.</param>
    /// <param name="lagSteps">Ground nearer to the eye than this many steps is not looked at.</param>
    public SweepLines(ElevationGrid grid, float[]? turned, RayAxes axes, Azimuth azimuth, SightModel model, int lagSteps, ushort[] candidates)
    {
        BeyondM = (float)model.BeyondGrid.HeightM(azimuth.Radians, grid);
        (this.grid, this.turned, this.axes, this.lagSteps, this.candidates) = (grid, turned, axes, lagSteps, candidates);
        (offsetCells, fraction, positionM, dropM) = (new int[axes.Majors], new float[axes.Majors], new float[axes.Majors], new float[axes.Majors]);
        LayMiddleLine(grid.Posts, azimuth, model.DropPerMetre);
    }

    private ReadOnlySpan<float> Ground => turned is null ? grid.Heights : turned;

    /// <summary>The height of the smooth earth past the grid's edge in this direction [m]; NaN where nothing stands there.</summary>
    public float BeyondM { get; }

    /// <summary>Ground nearer to the eye than this many steps is not looked at.</summary>
    public int LagSteps => lagSteps;

    /// <summary>The major index of the highest far ground on the two lines beside a place; <see cref="None"/> where a line
    /// has none.</summary>
    public (int Left, int Right) Beside(int major, int minor, float minorPart)
    {
        var line = LineBefore(major, minor, minorPart);
        var at = (major * axes.Minors) + line;
        return (line >= 0 ? candidates[at] : None, line + 1 < axes.Minors ? candidates[at + 1] : None);
    }

    public void Run()
    {
        // Line j passes the major index of step u at minor j + offset(u).
        var (first, last) = (-offsetCells.Max(), axes.Minors - 1 - offsetCells.Min());
        var chunks = (last - first + Lanes) / Lanes;
        Parallel.For(0, chunks, () => new Work(axes.Majors), (chunk, _, work) =>
        {
            Sweep(first + (chunk * Lanes), work);
            return work;
        }, _ => { });
    }

    private void Sweep(int line, Work work)
    {
        var (from, to) = Profile(line, work.Profile);
        if (from >= to) return;
        for (var lane = 0; lane < Lanes; lane++) Hull(lane, from, to, work);
        for (var u = from; u < to; u++)
        {
            var minor = line + offsetCells[u];
            var (skip, end) = (Math.Max(0, -minor), Math.Min(Lanes, axes.Minors - minor));
            if (skip < end)
                work.Found.AsSpan((u * Lanes) + skip, end - skip).CopyTo(candidates.AsSpan((MajorAt(u) * axes.Minors) + minor + skip));
        }
    }

    /// <summary>The heights on sixteen neighbouring lines, lowered by the curve of the earth.</summary>
    /// <returns>The steps between which any of the lines is in the grid.</returns>
    private (int From, int To) Profile(int line, float[] profile)
    {
        var (from, to) = (axes.Majors, 0);
        for (var u = 0; u < axes.Majors; u++)
        {
            var minor = line + offsetCells[u];
            var target = profile.AsSpan(u * Lanes, Lanes);
            if (minor <= -Lanes || minor >= axes.Minors - 1)
            {
                target.Fill(float.NaN);
                continue;
            }
            (from, to) = (Math.Min(from, u), u + 1);
            var row = Ground.Slice(MajorAt(u) * axes.Minors, axes.Minors);
            var (f, drop) = (fraction[u], dropM[u]);
            if (minor >= 0 && minor + Lanes < axes.Minors)
            {
                ref var source = ref MemoryMarshal.GetReference(row);
                for (var i = 0; i < Lanes; i += Vector256<float>.Count)
                {
                    var left = Vector256.LoadUnsafe(ref source, (nuint)(minor + i));
                    var right = Vector256.LoadUnsafe(ref source, (nuint)(minor + i + 1));
                    (left + ((right - left) * f) - Vector256.Create(drop)).CopyTo(target[i..]);
                }
                continue;
            }
            for (var lane = 0; lane < Lanes; lane++)
            {
                var m = minor + lane;
                target[lane] = m >= 0 && m < axes.Minors - 1 ? row[m] + ((row[m + 1] - row[m]) * f) - drop : float.NaN;
            }
        }
        return (from, to);
    }

    private void Hull(int lane, int from, int to, Work work)
    {
        var (profile, found) = (work.Profile, work.Found);
        ref var stack = ref MemoryMarshal.GetArrayDataReference(work.Stack);
        var (count, next, near) = (0, from, 0);
        for (var u = from; u < to; u++)
        {
            for (; next + lagSteps <= u; next += StepsPerPoint)
            {
                var highest = Highest(profile, lane, next);
                if (!(highest.Z > Nothing)) continue;
                while (count >= 2 && !IsCorner(highest, Unsafe.Add(ref stack, count - 1), Unsafe.Add(ref stack, count - 2))) count--;
                Unsafe.Add(ref stack, count++) = highest;
            }
            var z = profile[(u * Lanes) + lane];
            if (count == 0 || !(z > Nothing))
            {
                found[(u * Lanes) + lane] = None;
                continue;
            }
            near = Math.Min(near, count - 1);
            near = Tangent(ref stack, count, near, positionM[u], z);
            found[(u * Lanes) + lane] = (ushort)MajorAt(Unsafe.Add(ref stack, near).Step);
        }
    }

    private HullPoint Highest(float[] profile, int lane, int step)
    {
        var (best, at) = (float.NegativeInfinity, step);
        for (var u = step; u < step + StepsPerPoint; u++)
        {
            var z = profile[(u * Lanes) + lane];
            if (z > best) (best, at) = (z, u);
        }
        return new HullPoint(positionM[at], best, at);
    }

    /// <summary>The tangent from (x, z) to the hull: slopes rise towards it from either side.</summary>
    private static int Tangent(ref HullPoint stack, int count, int near, float x, float z)
    {
        var best = Unsafe.Add(ref stack, near);
        var hint = near;
        // Farther points lie deeper in the stack, at greater x.
        while (near > 0 && Unsafe.Add(ref stack, near - 1) is var deeper && IsSteeper(deeper, best, x, z))
        {
            best = deeper;
            near--;
        }
        if (near != hint) return near;
        while (near < count - 1 && Unsafe.Add(ref stack, near + 1) is var nearer && IsSteeper(nearer, best, x, z))
        {
            best = nearer;
            near++;
        }
        return near;
    }

    private static bool IsSteeper(HullPoint a, HullPoint b, float x, float z) => (a.Z - z) * (b.X - x) > (b.Z - z) * (a.X - x);

    /// <summary>Whether the middle point stands above the line from the new, nearest one to the one beyond it.</summary>
    private static bool IsCorner(HullPoint nearest, HullPoint middle, HullPoint beyond) =>
        (middle.Z - nearest.Z) * (beyond.X - nearest.X) > (beyond.Z - nearest.Z) * (middle.X - nearest.X);

    private int LineBefore(int major, int minor, float minorPart) => minorPart >= fraction[StepAt(major)] ? minor : minor - 1;

    private int MajorAt(int step) => axes.Forward > 0 ? axes.Majors - 1 - step : step;

    private int StepAt(int major) => axes.Forward > 0 ? axes.Majors - 1 - major : major;

    private void LayMiddleLine(GridPosts posts, Azimuth azimuth, double drop)
    {
        const int Knot = 64;
        var middleMinor = (axes.Minors - 1) / 2.0;
        var (aside, metres) = (0.0, 0.0);
        var offsets = new double[axes.Majors];
        var at = SlopeAt(0);
        for (var u = 0; u < axes.Majors; u += Knot)
        {
            var next = SlopeAt(u + Knot);
            for (var i = 0; i < Knot && u + i < axes.Majors; i++)
            {
                (offsets[u + i], positionM[u + i]) = (aside, (float)-metres);
                var t = (i + 0.5) / Knot;
                aside -= at.Aside + (t * (next.Aside - at.Aside));
                metres += at.Metres + (t * (next.Metres - at.Metres));
            }
            at = next;
        }
        // Measured from the middle, where the numbers are smallest and keep most digits.
        var centre = axes.Majors / 2;
        var (centreM, centreOffset) = (positionM[centre], offsets[centre]);
        for (var u = 0; u < axes.Majors; u++)
        {
            var offset = offsets[u] - centreOffset;
            (offsetCells[u], positionM[u]) = ((int)Math.Floor(offset), positionM[u] - centreM);
            fraction[u] = (float)(offset - offsetCells[u]);
            dropM[u] = (float)(drop * positionM[u] * positionM[u]);
        }

        (double Aside, double Metres) SlopeAt(int step)
        {
            var major = MajorAt(Math.Min(step, axes.Majors - 1));
            var path = RayWay.From(posts, axes, azimuth, axes.ToCell(major, middleMinor), 1);
            return (path.AsideAfter(1), path.MetresAfter(1));
        }
    }

    /// <param name="X">Along the line outwards [m].</param>
    /// <param name="Z">Height lowered by the curve of the earth [m].</param>
    /// <param name="Step">From the far end.</param>
    private readonly record struct HullPoint(float X, float Z, int Step);

    private sealed class Work(int majors)
    {
        public float[] Profile { get; } = new float[majors * Lanes];

        public ushort[] Found { get; } = new ushort[majors * Lanes];

        public HullPoint[] Stack { get; } = new HullPoint[(majors / StepsPerPoint) + 1];
    }
}
