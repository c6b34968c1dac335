using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Glowcast.Engine.Terrain;

/// <summary>The ways of eight rays over a grid, as cubics of the steps made along the major axis that they share
/// (<see cref="RayWay"/>).</summary>
internal readonly struct RayWays
{
    private readonly Vector256<float> a1;
    private readonly Vector256<float> a2;
    private readonly Vector256<float> a3;
    private readonly Vector256<float> m1;
    private readonly Vector256<float> m2;
    private readonly Vector256<float> m3;

    /// <param name="paths">At most eight; where there are fewer the last one stands for the rest.</param>
    /// <param name="steps">How far they are used.</param>
    /// <param name="nearestM">From how far on.</param>
    public RayWays(ReadOnlySpan<RayWay> paths, double steps, double nearestM)
    {
        NearestSteps = float.PositiveInfinity;
        Span<float> lanes = stackalloc float[Vector256<float>.Count];
        a1 = Lanes(paths, lanes, path => path.Aside.C1);
        a2 = Lanes(paths, lanes, path => path.Aside.C2);
        a3 = Lanes(paths, lanes, path => path.Aside.C3);
        m1 = Lanes(paths, lanes, path => path.Metres.C1);
        m2 = Lanes(paths, lanes, path => path.Metres.C2);
        m3 = Lanes(paths, lanes, path => path.Metres.C3);
        foreach (var path in paths)
        {
            (Bend, Steepest) = (Math.Max(Bend, (float)path.Bend(steps)), Math.Max(Steepest, (float)path.Steepest(steps)));
            NearestSteps = Math.Min(NearestSteps, (float)path.StepsIn(nearestM));
        }
    }

    /// <param name="coefficients">Of each of the eight ways: those of k, k² and k³ aside and of the distance, its bend and how steep it is
    /// (<see cref="WayTable"/>).</param>
    /// <param name="nearestM">From how far on they are used.</param>
    public RayWays(ReadOnlySpan<Vector256<float>> coefficients, float nearestM)
    {
        Span<float> lanes = stackalloc float[Vector256<float>.Count];
        a1 = Lanes(coefficients, lanes, 0);
        a2 = Lanes(coefficients, lanes, 1);
        a3 = Lanes(coefficients, lanes, 2);
        m1 = Lanes(coefficients, lanes, 3);
        m2 = Lanes(coefficients, lanes, 4);
        m3 = Lanes(coefficients, lanes, 5);
        foreach (var way in coefficients) (Bend, Steepest) = (Math.Max(Bend, way[6]), Math.Max(Steepest, way[7]));
        // Of a short way only the first term counts.
        var steps = Vector256.Create(0.99f * nearestM) / m1;
        NearestSteps = float.PositiveInfinity;
        for (var i = 0; i < lanes.Length; i++) NearestSteps = Math.Min(NearestSteps, steps[i]);
    }

    private RayWays(in RayWays one, in RayWays other, float share)
    {
        (a1, a2, a3) = (one.a1 + ((other.a1 - one.a1) * share), one.a2 + ((other.a2 - one.a2) * share), one.a3 + ((other.a3 - one.a3) * share));
        (m1, m2, m3) = (one.m1 + ((other.m1 - one.m1) * share), one.m2 + ((other.m2 - one.m2) * share), one.m3 + ((other.m3 - one.m3) * share));
        (Bend, Steepest, NearestSteps) = (Math.Max(one.Bend, other.Bend), Math.Max(one.Steepest, other.Steepest), Math.Min(one.NearestSteps, other.NearestSteps));
    }

    /// <summary>The ways from a place between two others, by so much nearer to the second one.</summary>
    public static RayWays Between(in RayWays one, in RayWays other, float share) => new(one, other, share);

    /// <summary>Between two of its points no way strays from the straight line by more than this times the square of the steps between
    /// them [cells].</summary>
    public float Bend { get; }

    /// <summary>With a step none goes aside by more than this [cells].</summary>
    public float Steepest { get; }

    /// <summary>Before so many steps none has come as far as counts.</summary>
    public float NearestSteps { get; }

    /// <summary>How far the ways have gone aside after k steps [cells].</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<float> AsideAfter(Vector256<float> k) => k * Vector256.FusedMultiplyAdd(k, Vector256.FusedMultiplyAdd(k, a3, a2), a1);

    /// <summary>How far they have come [m].</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<float> MetresAfter(Vector256<float> k) => k * Vector256.FusedMultiplyAdd(k, Vector256.FusedMultiplyAdd(k, m3, m2), m1);

    /// <summary>After how many steps they have come so far [m], nearly.</summary>
    public Vector256<float> StepsTo(Vector256<float> metres)
    {
        var k = metres / m1;
        return k - ((MetresAfter(k) - metres) / (m1 + (k * ((m2 * 2f) + (k * m3 * 3f)))));
    }

    /// <summary>After how many steps they leave a strip of posts by one of its sides; +∞ where they never do.</summary>
    /// <param name="toUpper">Minor offset of the upper side [cells], ≥ 0.</param>
    /// <param name="toLower">And of the lower one, ≤ 0.</param>
    public Vector256<float> StepsToSide(Vector256<float> toUpper, Vector256<float> toLower) =>
        Vector256.MinNative(StepsOut(toUpper, Vector256<float>.One), StepsOut(toLower, -Vector256<float>.One));

    /// <param name="outward">+1 where a way must rise to leave, else −1.</param>
    private Vector256<float> StepsOut(Vector256<float> aside, Vector256<float> outward)
    {
        // Of the two roots of the quadratic the one at which the way goes outward: 2d/(a₁ ± √(a₁² + 4a₂d)); then Newton's method for the
        // cubic. A root behind the eye stays there.
        var k = aside * 2f / (a1 + (outward * Vector256.Sqrt((a1 * a1) + (a2 * aside * 4f))));
        var isAhead = Vector256.GreaterThanOrEqual(k, Vector256<float>.Zero);
        for (var round = 0; round < 2; round++) k -= (AsideAfter(k) - aside) / (a1 + (k * ((a2 * 2f) + (k * a3 * 3f))));
        isAhead &= Vector256.GreaterThanOrEqual(k, Vector256<float>.Zero);
        // A root of the quadratic far beyond the grid leads Newton's method anywhere.
        var offBy = Vector256.Abs(AsideAfter(k) - aside);
        isAhead &= Vector256.LessThanOrEqual(offBy, Vector256.FusedMultiplyAdd(Vector256.Abs(aside), Vector256.Create(1e-5f), Vector256.Create(0.01f)));
        return Vector256.ConditionalSelect(isAhead, k, Vector256.Create(float.PositiveInfinity));
    }

    private static Vector256<float> Lanes(ReadOnlySpan<RayWay> paths, Span<float> lanes, Func<RayWay, double> coefficient)
    {
        for (var i = 0; i < lanes.Length; i++) lanes[i] = (float)coefficient(paths[Math.Min(i, paths.Length - 1)]);
        return Vector256.Create<float>(lanes);
    }

    private static Vector256<float> Lanes(ReadOnlySpan<Vector256<float>> ways, Span<float> lanes, int coefficient)
    {
        for (var i = 0; i < lanes.Length; i++) lanes[i] = ways[i][coefficient];
        return Vector256.Create<float>(lanes);
    }
}
