namespace Glowcast.Engine.Weather;

/// <summary>Latitudes of a Gaussian grid: arcsines of the roots of a Legendre polynomial.</summary>
internal static class GaussianRows
{
    /// <summary>The finest in use has 2,560 rows to a hemisphere.</summary>
    private const int MostToAPole = 4000;

    /// <param name="toAPole">Rows between equator and pole.</param>
    /// <param name="firstLat">Of the first row that is wanted [°].</param>
    /// <param name="count">How many, in the direction of <paramref name="lastLat"/>.</param>
    public static double[] Between(int toAPole, double firstLat, double lastLat, int count)
    {
        if (toAPole is < 1 or > MostToAPole) throw new GribDamage($"Its Gaussian grid has {toAPole} rows to a pole; from 1 to {MostToAPole} are read.");
        var all = FromNorth(toAPole);
        if (firstLat < lastLat) Array.Reverse(all);
        var start = Nearest(all, firstLat);
        if (start + count > all.Length || Math.Abs(all[start] - firstLat) > Tolerance(toAPole) || Math.Abs(all[start + count - 1] - lastLat) > Tolerance(toAPole))
            throw new GribDamage($"Its {count} rows from {firstLat:0.###}° to {lastLat:0.###}° are no rows of a Gaussian grid with {toAPole} to a pole.");
        return all.AsSpan(start, count).ToArray();
    }

    private static double Tolerance(int toAPole) => 0.2 * 90 / toAPole;

    private static int Nearest(double[] rows, double latitude)
    {
        var nearest = 0;
        for (var i = 1; i < rows.Length; i++)
            if (Math.Abs(rows[i] - latitude) < Math.Abs(rows[nearest] - latitude)) nearest = i;
        return nearest;
    }

    private static double[] FromNorth(int toAPole)
    {
        var degree = 2 * toAPole;
        var rows = new double[degree];
        for (var k = 0; k < toAPole; k++)
        {
            var root = Math.Cos(Math.PI * (k + 0.75) / (degree + 0.5));
            for (var (round, step) = (0, 1.0); round < 20 && Math.Abs(step) > 1e-15; round++)
            {
                step = NewtonStep(degree, root);
                root -= step;
            }
            rows[k] = Math.Asin(root) * 180 / Math.PI;
            rows[degree - 1 - k] = -rows[k];
        }
        return rows;
    }

    private static double NewtonStep(int degree, double x)
    {
        var (before, now) = (1.0, x);
        for (var n = 2; n <= degree; n++) (before, now) = (now, ((((2 * n) - 1) * x * now) - ((n - 1) * before)) / n);
        var slope = degree * ((x * now) - before) / ((x * x) - 1);
        return now / slope;
    }
}
