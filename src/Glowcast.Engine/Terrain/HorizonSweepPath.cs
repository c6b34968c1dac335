using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The way of a ray over the grid, as cubics of the steps made along the major axis: how far it has come, and how
/// far it has gone aside. All points of a small block share the way of the block's middle.</summary>
/// <remarks>On a geographic grid the way of a true azimuth depends on the latitude only, so that sharing errs by no more
/// than the change of the azimuth's direction over half a block: 5 m at 40 km for eight rows of 3″ at 45°.</remarks>
internal readonly struct SweepPath
{
    private SweepPath((double C1, double C2, double C3) aside, (double C1, double C2, double C3) metres) =>
        (Aside, Metres) = (aside, metres);

    /// <summary>Coefficients of k, k² and k³ of the minor offset [cells] after k steps.</summary>
    public (double C1, double C2, double C3) Aside { get; }

    /// <summary>The same of the distance [m].</summary>
    public (double C1, double C2, double C3) Metres { get; }

    /// <param name="steps">How far the way is needed; the cubics meet it at thirds of this.</param>
    public static SweepPath From(GridPosts posts, SweepAxes axes, Azimuth azimuth, Cell middle, double steps)
    {
        var path = SweepAxes.Aimed(posts, azimuth, middle.X, middle.Y);
        Span<double> aside = stackalloc double[3];
        Span<double> metres = stackalloc double[3];
        var (fromMajor, fromMinor) = (axes.MajorOf(middle), axes.MinorOf(middle));
        for (var i = 0; i < 3; i++)
        {
            var k = (i + 1) / 3.0 * steps;
            var (distanceM, cell) = Reach(path, axes, fromMajor, k, i == 0 ? k * posts.CellSize.Metres : metres[i - 1] * (i + 1) / i);
            (metres[i], aside[i]) = (distanceM, axes.MinorOf(cell) - fromMinor);
        }
        return new SweepPath(Through(aside, steps / 3), Through(metres, steps / 3));
    }

    public double AsideAfter(double k) => k * (Aside.C1 + (k * (Aside.C2 + (k * Aside.C3))));

    public double MetresAfter(double k) => k * (Metres.C1 + (k * (Metres.C2 + (k * Metres.C3))));

    /// <summary>The steps after which the ray has come a distance [m].</summary>
    public double StepsIn(double metres)
    {
        var k = metres / Metres.C1;
        for (var round = 0; round < 3; round++) k -= (MetresAfter(k) - metres) / Metres.C1;
        return k;
    }

    private static (double Metres, Cell Cell) Reach(CellPath path, SweepAxes axes, double fromMajor, double steps, double guessM)
    {
        var metres = guessM;
        for (var round = 0; ; round++)
        {
            var cell = path.At(metres);
            var reached = (axes.MajorOf(cell) - fromMajor) * axes.Forward;
            if (round == 4 || Math.Abs(reached - steps) < 1e-5) return (metres, cell);
            metres *= steps / reached;
        }
    }

    /// <summary>The cubic without constant term through values at d, 2d and 3d.</summary>
    private static (double C1, double C2, double C3) Through(ReadOnlySpan<double> values, double d)
    {
        var (a, b, c) = (values[0], values[1], values[2]);
        return (
            ((18 * a) - (9 * b) + (2 * c)) / (6 * d),
            ((-5 * a) + (4 * b) - c) / (2 * d * d),
            ((3 * a) - (3 * b) + c) / (6 * d * d * d));
    }
}

/// <summary>Eight points of a sweep's way at once.</summary>
internal readonly struct SweepPathLanes(SweepPath path)
{
    private const int Rounds = 2;

    private readonly Vector256<float> a1 = Vector256.Create((float)path.Aside.C1);
    private readonly Vector256<float> a2 = Vector256.Create((float)path.Aside.C2);
    private readonly Vector256<float> a3 = Vector256.Create((float)path.Aside.C3);
    private readonly Vector256<float> m1 = Vector256.Create((float)path.Metres.C1);
    private readonly Vector256<float> m2 = Vector256.Create((float)path.Metres.C2);
    private readonly Vector256<float> m3 = Vector256.Create((float)path.Metres.C3);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<float> AsideAfter(Vector256<float> k) => k * (a1 + (k * (a2 + (k * a3))));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<float> MetresAfter(Vector256<float> k) => k * (m1 + (k * (m2 + (k * m3))));

    /// <summary>Whether the minor index rises as one sets out.</summary>
    public bool GoesUp { get; } = path.Aside.C1 >= 0;

    /// <summary>The steps after which the way has gone so far aside, by Newton's method; NaN or infinite where it never does.</summary>
    public Vector256<float> StepsAside(Vector256<float> aside)
    {
        var k = aside / a1;
        for (var round = 0; round < Rounds; round++) k -= (AsideAfter(k) - aside) / (a1 + (k * ((a2 * 2f) + (k * a3 * 3f))));
        return k;
    }
}
