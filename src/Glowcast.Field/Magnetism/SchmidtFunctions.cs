namespace Glowcast.Field.Magnetism;

/// <summary>Schmidt semi-normalised associated Legendre functions of the cosine of a colatitude, and their slopes.</summary>
/// <remarks>By recursion over degree and order (docs/model.md, G2).</remarks>
internal sealed class SchmidtFunctions
{
    private readonly double[,] values;
    private readonly double[,] slopes;

    public SchmidtFunctions(double colatitudeRad, int degree)
    {
        (values, slopes) = (new double[degree + 1, degree + 1], new double[degree + 1, degree + 1]);
        var (sin, cos) = Math.SinCos(colatitudeRad);
        values[0, 0] = 1;
        for (var n = 1; n <= degree; n++)
        {
            for (var m = 0; m < n; m++)
            {
                var (down, below) = ((2 * n) - 1, n > 1 ? Math.Sqrt(((n - 1) * (n - 1)) - (m * m)) : 0);
                var norm = Math.Sqrt((n * n) - (m * m));
                var (before, slopeBefore) = n > 1 ? (values[n - 2, m], slopes[n - 2, m]) : (0, 0);
                values[n, m] = ((down * cos * values[n - 1, m]) - (below * before)) / norm;
                slopes[n, m] = ((down * ((cos * slopes[n - 1, m]) - (sin * values[n - 1, m]))) - (below * slopeBefore)) / norm;
            }
            var diagonal = n == 1 ? 1 : Math.Sqrt(((2.0 * n) - 1) / (2 * n));
            values[n, n] = diagonal * sin * values[n - 1, n - 1];
            slopes[n, n] = diagonal * ((sin * slopes[n - 1, n - 1]) + (cos * values[n - 1, n - 1]));
        }
    }

    public double Value(int n, int m) => values[n, m];

    /// <summary>By the colatitude [1/rad].</summary>
    public double Slope(int n, int m) => slopes[n, m];
}
