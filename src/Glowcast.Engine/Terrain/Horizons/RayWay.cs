using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The way of a ray over the grid, as cubics of the steps made along the major axis: how far it has come, and how
/// far it has gone aside. All points of a small block share the way of the block's middle.</summary>
/// <remarks>On a geographic grid the way of a true azimuth depends on the latitude only, so that sharing errs by no more
/// than the change of the azimuth's direction over half a block: 5 m at 40 km for eight rows of 3″ at 45°.</remarks>
internal readonly struct RayWay
{
    private const double MostCells = 0.01;
    private const double MostRad = 1.7e-4;

    private const double MetresPerDegree = 111_000;
    private const double MostLatitudeDeg = 88;

    private RayWay((double C1, double C2, double C3) aside, (double C1, double C2, double C3) metres) =>
        (Aside, Metres) = (aside, metres);

    /// <summary>Coefficients of k, k² and k³ of the minor offset [cells] after k steps.</summary>
    public (double C1, double C2, double C3) Aside { get; }

    /// <summary>The same of the distance [m].</summary>
    public (double C1, double C2, double C3) Metres { get; }

    /// <param name="steps">How far the way is needed; the cubics meet it at thirds of this.</param>
    /// <exception cref="ArgumentException">It is no such way.</exception>
    public static RayWay From(GridPosts posts, RayAxes axes, Azimuth azimuth, Cell middle, double steps) =>
        Of(posts, axes, azimuth, middle, steps) ?? throw new ArgumentException($"Near to a pole, or along an axis that the way does not follow, it is not told by a cubic: {azimuth} from {posts.ToPoint(middle.X, middle.Y)}.", nameof(azimuth));

    /// <returns>Null where the cubics stray from the way, as near to a pole.</returns>
    /// <inheritdoc cref="From"/>
    public static RayWay? Of(GridPosts posts, RayAxes axes, Azimuth azimuth, Cell middle, double steps)
    {
        var from = posts.ToPoint(middle.X, middle.Y);
        if (Math.Abs(from.LatitudeDeg) + (steps * posts.CellSize.Metres / MetresPerDegree) > MostLatitudeDeg) return null;
        var path = RayAxes.Aimed(posts, azimuth, middle.X, middle.Y);
        Span<double> aside = stackalloc double[3];
        Span<double> metres = stackalloc double[3];
        var (fromMajor, fromMinor) = (axes.MajorOf(middle), axes.MinorOf(middle));
        for (var i = 0; i < 3; i++)
        {
            var k = (i + 1) / 3.0 * steps;
            if (Reach(path, axes, fromMajor, k, i == 0 ? k * posts.CellSize.Metres : metres[i - 1] * (i + 1) / i) is not { } reached) return null;
            (metres[i], aside[i]) = (reached.Metres, axes.MinorOf(reached.Cell) - fromMinor);
        }
        var way = new RayWay(Through(aside, steps / 3), Through(metres, steps / 3));
        return Strays(1 / 2.0) || Strays(5 / 6.0) ? null : way;

        // By more than a hundredth of a degree, or of a cell.
        bool Strays(double share)
        {
            var k = share * steps;
            var cell = path.At(way.MetresAfter(k));
            var (ahead, beside) = ((axes.MajorOf(cell) - fromMajor) * axes.Forward, axes.MinorOf(cell) - fromMinor);
            return !(Math.Abs(ahead - k) + Math.Abs(beside - way.AsideAfter(k)) < MostCells + (k * MostRad));
        }
    }

    public double AsideAfter(double k) => k * (Aside.C1 + (k * (Aside.C2 + (k * Aside.C3))));

    public double MetresAfter(double k) => k * (Metres.C1 + (k * (Metres.C2 + (k * Metres.C3))));

    /// <summary>Between two of its points, over so many steps, the way strays from the straight line by no more than this times the square of the
    /// steps between them [cells].</summary>
    public double Bend(double steps) => (Math.Abs(Aside.C2) + Math.Abs(3 * Aside.C3 * steps)) / 4;

    /// <summary>With a step, over so many, it goes aside by no more than this [cells].</summary>
    public double Steepest(double steps) => Math.Abs(Aside.C1) + (2 * Math.Abs(Aside.C2) * steps) + (3 * Math.Abs(Aside.C3) * steps * steps);

    /// <summary>The steps after which the ray has come a distance [m].</summary>
    public double StepsIn(double metres)
    {
        var k = metres / Metres.C1;
        for (var round = 0; round < 3; round++) k -= (MetresAfter(k) - metres) / Metres.C1;
        return k;
    }

    /// <summary>The distance at which the way has come so many steps along; null where it does not come near.</summary>
    private static (double Metres, Cell Cell)? Reach(CellPath path, RayAxes axes, double fromMajor, double steps, double guessM)
    {
        var metres = guessM;
        for (var round = 0; round < 6; round++)
        {
            var cell = path.At(metres);
            var reached = (axes.MajorOf(cell) - fromMajor) * axes.Forward;
            if (Math.Abs(reached - steps) < 1e-5 + (1e-9 * steps)) return (metres, cell);
            if (!(reached > steps / 5 && reached < steps * 5)) return null;
            metres *= steps / reached;
        }
        return (metres, path.At(metres));
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
