using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Glowcast.Engine.Terrain;

namespace Glowcast.Benchmarks;

/// <summary>Eight rays at once, from eyes of one block: the greatest tangent over single steps of their ways.</summary>
internal readonly ref struct SweepRays
{
    // A ray along the posts, or along the edge of the grid, may miss them by rounding.
    private const float Slack = 1e-4f;

    private readonly ref float ground;
    private readonly RayAxes axes;
    private readonly RayWays path;
    private readonly SweepEyes eyes;
    private readonly Vector256<float> forward;
    private readonly Vector256<float> partForward;
    private readonly Vector256<float> drop;
    private readonly Vector256<float> fromM;
    private readonly Vector256<int> lastMajor;
    private readonly Vector256<int> lastMinorCell;
    private readonly Vector256<float> stepsToEdge;

    public SweepRays(ReadOnlySpan<float> heights, RayAxes axes, RayWays path, SweepEyes eyes, float drop, float fromM)
    {
        ground = ref MemoryMarshal.GetReference(heights);
        (this.axes, this.path, this.eyes) = (axes, path, eyes);
        (this.drop, this.fromM) = (Vector256.Create(drop), Vector256.Create(fromM));
        forward = Vector256.Create((float)axes.Forward);
        partForward = eyes.MajorPart * forward;
        lastMajor = Vector256.Create(axes.Majors - 1);
        lastMinorCell = Vector256.Create(axes.Minors - 2);
        stepsToEdge = StepsToEdge();
    }

    public SweepEyes Eyes => eyes;

    /// <summary>The last line of posts that each ray crosses inside the grid.</summary>
    public Vector256<int> LastStep => eyes.Major + (Vector256.ConvertToInt32(stepsToEdge + partForward) * axes.Forward);

    /// <summary>The tangent of a smooth earth past the edge of the grid, as <see cref="SmoothEarth.Horizon"/> has it.</summary>
    public Vector256<float> Beyond(float heightM)
    {
        var below = eyes.HeightM - Vector256.Create(heightM);
        var tangentM = Vector256.Sqrt(Vector256.Max(below, Vector256<float>.Zero) / drop);
        var metres = Vector256.Max(Vector256.Max(path.MetresAfter(stepsToEdge), fromM), tangentM);
        return RayTangent.Of(-below / metres, metres * drop);
    }

    /// <summary>The tangent of the ground where the rays cross one line of posts each; −∞ off the grid, beside holes, and
    /// nearer than the least distance.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<float> At(Vector256<int> major)
    {
        var k = Steps(major);
        var y = eyes.MinorPart + path.AsideAfter(k);
        var cell = CellOf(y);
        var (index, isInside) = Index(major, cell);
        var h = Gather(index);
        h += (Gather(index + Vector256.Create(axes.MinorStride)) - h) * (y - Vector256.ConvertToSingle(cell));
        var metres = path.MetresAfter(k);
        var tangent = RayTangent.Of((h - eyes.HeightM) / metres, metres * drop);
        isInside &= Vector256.GreaterThanOrEqual(metres, fromM).AsInt32();
        return Vector256.ConditionalSelect(isInside.AsSingle(), tangent, Vector256.Create(float.NegativeInfinity));
    }

    /// <summary>The greatest tangent on the way from one line of posts to the next one outwards, exact but for the way's
    /// bend within the step; the best so far where nothing there is greater.</summary>
    public Vector256<float> Between(Vector256<int> major, Vector256<float> best)
    {
        var k0 = Steps(major);
        var k1 = k0 + Vector256<float>.One;
        var (y0, y1) = (eyes.MinorPart + path.AsideAfter(k0), eyes.MinorPart + path.AsideAfter(k1));
        var (m0, m1) = (path.MetresAfter(k0), path.MetresAfter(k1));
        // Nearer ground than the least distance is cut off.
        var begin = Vector256.Max(Vector256<float>.Zero, (fromM - m0) / (m1 - m0));
        var isAhead = Vector256.LessThan(begin, Vector256<float>.One).AsInt32();
        var (firstCell, lastCell) = (CellOf(y0), CellOf(y1));
        // Where the way changes from one row of cells to the next; one where it does not.
        var isWithinOne = Vector256.Equals(firstCell, lastCell);
        var edge = Vector256.ConvertToSingle(Vector256.Max(firstCell, lastCell));
        var change = Vector256.ConditionalSelect(isWithinOne.AsSingle(), Vector256<float>.One, (edge - y0) / (y1 - y0));
        change = Vector256.Max(begin, Vector256.Min(Vector256<float>.One, change));

        var way = new Step(major, y0, y1, m0, m1);
        var highest = InCell(firstCell, way, begin, change, best);
        if (!Vector256.EqualsAll(firstCell, lastCell)) highest = InCell(lastCell, way, change, Vector256<float>.One, highest);
        return Vector256.ConditionalSelect(isAhead.AsSingle(), highest, best);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> InCell(Vector256<int> cell, in Step way, Vector256<float> begin, Vector256<float> end, Vector256<float> best)
    {
        var (index, isInside) = Index(way.Major, cell);
        var beside = Vector256.Create(axes.MinorStride);
        isInside &= IsWithin(way.Major + Vector256.Create(axes.Forward), lastMajor) & Vector256.LessThan(begin, end).AsInt32();
        var far = (index + Vector256.Create(axes.Forward * axes.MajorStride)) & isInside;
        var (n, f, nb, fb) = (Gather(index), Gather(far), Gather(index + beside), Gather(far + beside));
        if (!CouldBeat(Vector256.Max(Vector256.Max(n, nb), Vector256.Max(f, fb)), way, best, isInside)) return best;
        var (alongNear, alongFar) = (nb - n, fb - f);
        var middle = (begin + end) * 0.5f;
        var v0 = way.Aside0 - Vector256.ConvertToSingle(cell);
        var highest = RayTangent.Vertex(
            Station(way, n, alongNear, f, alongFar, v0, begin),
            Station(way, n, alongNear, f, alongFar, v0, middle),
            Station(way, n, alongNear, f, alongFar, v0, end));
        return RayTangent.Greater(best, Vector256.ConditionalSelect(isInside.AsSingle(), highest, best));
    }

    /// <summary>False when ground of these heights, anywhere in the step, stands above none of the best tangents so far.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private bool CouldBeat(Vector256<float> heightM, in Step way, Vector256<float> best, Vector256<int> isInside)
    {
        var above = heightM - eyes.HeightM;
        var metres = Vector256.ConditionalSelect(Vector256.GreaterThan(above, Vector256<float>.Zero), way.Metres0, way.Metres1);
        var cannotBeat = Vector256.LessThanOrEqual(above, (best + (way.Metres0 * drop)) * metres);
        return Vector256.AndNot(isInside, cannotBeat.AsInt32()) != Vector256<int>.Zero;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> Station(
        in Step way, Vector256<float> near, Vector256<float> alongNear, Vector256<float> far, Vector256<float> alongFar, Vector256<float> v0, Vector256<float> t)
    {
        var v = v0 + (t * (way.Aside1 - way.Aside0));
        var (nearM, farM) = (near + (v * alongNear), far + (v * alongFar));
        var metres = way.Metres0 + (t * (way.Metres1 - way.Metres0));
        return RayTangent.Of((nearM + (t * (farM - nearM)) - eyes.HeightM) / metres, metres * drop);
    }

    private Vector256<float> StepsToEdge()
    {
        var toEnd = Vector256.ConvertToSingle(axes.Forward > 0 ? lastMajor - eyes.Major : eyes.Major) - partForward;
        var toUpper = Vector256.ConvertToSingle(lastMinorCell + Vector256<int>.One - eyes.Minor) - eyes.MinorPart;
        var toLower = Vector256.ConvertToSingle(-eyes.Minor) - eyes.MinorPart;
        return Vector256.MinNative(toEnd, path.StepsToSide(toUpper, toLower));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> Steps(Vector256<int> major) => (Vector256.ConvertToSingle(major - eyes.Major) * forward) - partForward;

    /// <summary>The row of cells, counted from the eye's, that holds a minor offset; on the outermost posts the one inside.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<int> CellOf(Vector256<float> aside)
    {
        var floor = Vector256.Floor(aside + Vector256.Create(Slack));
        var isOnEdge = Vector256.Equals(Vector256.ConvertToInt32(floor) + eyes.Minor, lastMinorCell + Vector256<int>.One)
            & Vector256.LessThanOrEqual(aside - floor, Vector256.Create(Slack)).AsInt32();
        return Vector256.ConvertToInt32(floor) + isOnEdge;
    }

    /// <summary>The corner of a cell in the row-major array; zero where the cell is off the grid.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private (Vector256<int> Index, Vector256<int> IsInside) Index(Vector256<int> major, Vector256<int> cell)
    {
        var minor = eyes.Minor + cell;
        var isInside = IsWithin(major, lastMajor) & IsWithin(minor, lastMinorCell);
        return (((major * axes.MajorStride) + (minor * axes.MinorStride)) & isInside, isInside);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> IsWithin(Vector256<int> value, Vector256<int> last) =>
        Vector256.GreaterThanOrEqual(value, Vector256<int>.Zero) & Vector256.LessThanOrEqual(value, last);

    /// <summary>The heights of eight posts.</summary>
    // Whoever makes the rays holds the heights in place, so that their address may be handed to the processor.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private unsafe Vector256<float> Gather(Vector256<int> index) => EightValues.At((float*)Unsafe.AsPointer(ref ground), index);

    /// <summary>One step of the eight ways: minor offsets [cells] and distances [m] at its two ends.</summary>
    private readonly record struct Step(
        Vector256<int> Major, Vector256<float> Aside0, Vector256<float> Aside1, Vector256<float> Metres0, Vector256<float> Metres1);
}
