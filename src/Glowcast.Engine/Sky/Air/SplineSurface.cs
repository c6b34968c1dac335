using MathNet.Numerics.Interpolation;

namespace Glowcast.Engine.Sky;

/// <summary>A smooth function of two variables on an even grid: natural cubic splines both ways, so that value, slope
/// and curvature are continuous across cells. Beyond the grid the outermost cells are carried on.</summary>
/// <remarks>The end conditions cost accuracy in the outer two or three cells; make the grid that much larger.</remarks>
internal sealed class SplineSurface
{
    private readonly EvenAxis xAxis;
    private readonly EvenAxis yAxis;
    private readonly Knot[] knots; // x-major

    /// <param name="values">[x, y] at the knots of the two axes.</param>
    public SplineSurface(EvenAxis xAxis, EvenAxis yAxis, double[,] values)
    {
        (this.xAxis, this.yAxis) = (xAxis, yAxis);
        var alongX = SlopesAlongX(values);
        var alongY = SlopesAlongY(values);
        var twist = SlopesAlongX(alongY);
        knots = new Knot[xAxis.Count * yAxis.Count];
        for (var i = 0; i < knots.Length; i++)
        {
            var (x, y) = Math.DivRem(i, yAxis.Count);
            knots[i] = new Knot(values[x, y], alongX[x, y], alongY[x, y], twist[x, y]);
        }
    }

    public double At(double x, double y)
    {
        var (column, u) = xAxis.Cell(x);
        var (row, v) = yAxis.Cell(y);
        var first = (column * yAxis.Count) + row;
        var second = first + yAxis.Count;
        var (left, leftSlope) = Along(in knots[first], in knots[first + 1], v);
        var (right, rightSlope) = Along(in knots[second], in knots[second + 1], v);
        return Hermite(left, leftSlope, right, rightSlope, u);
    }

    private static (double Value, double SlopeX) Along(in Knot a, in Knot b, double v) =>
        (Hermite(a.Value, a.SlopeY, b.Value, b.SlopeY, v), Hermite(a.SlopeX, a.Twist, b.SlopeX, b.Twist, v));

    private static double Hermite(double a, double slopeA, double b, double slopeB, double u)
    {
        var rise = b - a;
        return a + (u * (slopeA + (u * ((3 * rise) - (2 * slopeA) - slopeB + (u * (slopeA + slopeB - (2 * rise)))))));
    }

    private static double[,] SlopesAlongX(double[,] values) =>
        Slopes(values, values.GetLength(1), values.GetLength(0), (line, i) => (i, line));

    private static double[,] SlopesAlongY(double[,] values) =>
        Slopes(values, values.GetLength(0), values.GetLength(1), (line, i) => (line, i));

    /// <summary>Slopes per cell along every line of the grid, from the line's own spline.</summary>
    private static double[,] Slopes(double[,] values, int lines, int length, Func<int, int, (int X, int Y)> at)
    {
        var slopes = new double[values.GetLength(0), values.GetLength(1)];
        var places = Enumerable.Range(0, length).Select(i => (double)i).ToArray();
        for (var line = 0; line < lines; line++)
        {
            var spline = CubicSpline.InterpolateNaturalSorted(places, [.. places.Select((_, i) => values[at(line, i).X, at(line, i).Y])]);
            for (var i = 0; i < length; i++) slopes[at(line, i).X, at(line, i).Y] = spline.Differentiate(i);
        }
        return slopes;
    }

    private readonly record struct Knot(double Value, double SlopeX, double SlopeY, double Twist);
}
