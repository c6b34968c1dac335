namespace Glowcast.Engine.Terrain;

/// <summary>How high the ground of a grid stands along its four edges: what is known of the country past them.</summary>
/// <remarks>
/// Towards an azimuth A the height is the mean of the medians of the edges through which rays of that azimuth leave, each weighed by its length across them, length ·
/// max(0, cos(A − outward)), outward being the true bearing across the edge at the middle of the grid. So it turns without a jump from one edge to the next. Worked out at whole
/// degrees and taken linearly between. Edges without any ground have no say; where none has, it is 0.
/// </remarks>
internal sealed class EdgeHeights
{
    private const int Steps = 360;

    private readonly double[] medianM = new double[Steps + 1];
    private readonly (int LastColumn, int LastRow) last;

    // North from west to east, east from north to south, south, west.
    private readonly (double[] HeightsM, double MedianM, double LengthM, double OutwardRad)[] edges;

    /// <param name="postM">The height at a column and row [m]; NaN for a hole.</param>
    public EdgeHeights(GridPosts posts, Func<int, int, double> postM)
    {
        var (lastColumn, lastRow) = (posts.Columns - 1, posts.Rows - 1);
        last = (lastColumn, lastRow);
        var (middleX, middleY) = (lastColumn / 2.0, lastRow / 2.0);
        edges =
        [
            Edge(posts.Columns, i => (i, 0), middleX, 0),
            Edge(posts.Rows, i => (lastColumn, i), lastColumn, middleY),
            Edge(posts.Columns, i => (i, lastRow), middleX, lastRow),
            Edge(posts.Rows, i => (0, i), 0, middleY),
        ];
        for (var step = 0; step <= Steps; step++) medianM[step] = MeanM(Math.Tau * step / Steps);
        HighestM = medianM.Max();

        (double[], double, double, double) Edge(int count, Func<int, (int Column, int Row)> post, double x, double y)
        {
            double[] along = [.. Enumerable.Range(0, count).Select(i => postM(post(i).Column, post(i).Row))];
            var heights = along.Where(double.IsFinite).Order().ToList();
            var length = Geodesic.Between(posts.ToPoint(post(0).Column, post(0).Row), posts.ToPoint(post(count - 1).Column, post(count - 1).Row)).Distance.Metres;
            var outward = Geodesic.Between(posts.ToPoint(middleX, middleY), posts.ToPoint(x, y)).Bearing.Radians;
            return heights.Count == 0 ? (along, double.NaN, 0, outward) : (along, (heights[(heights.Count - 1) / 2] + heights[heights.Count / 2]) / 2, length, outward);
        }
    }

    /// <summary>The greatest in any direction [m].</summary>
    public double HighestM { get; }

    /// <summary>The height of the country past the edge in one direction [m].</summary>
    public double TowardsM(double azimuthRad)
    {
        var turns = azimuthRad / Math.Tau;
        var steps = (turns - Math.Floor(turns)) * Steps;
        var step = Math.Min((int)steps, Steps - 1);
        return medianM[step] + ((steps - step) * (medianM[step + 1] - medianM[step]));
    }

    /// <summary>The highest post of the edge through which a ray leaves, so far to either side of it [m]; NaN where there is no ground.</summary>
    /// <param name="x">Where it leaves, in columns.</param>
    /// <param name="y">In rows.</param>
    public double HighestNearM(double x, double y, double reachM)
    {
        double[] toEdge = [Math.Abs(y), Math.Abs(last.LastColumn - x), Math.Abs(last.LastRow - y), Math.Abs(x)];
        var side = Array.IndexOf(toEdge, toEdge.Min());
        var (heights, _, length, _) = edges[side];
        var (at, reach) = (side % 2 == 0 ? x : y, length > 0 ? reachM / length * (heights.Length - 1) : 0);
        var (first, end) = ((int)Math.Clamp(Math.Floor(at - reach), 0, heights.Length - 1), (int)Math.Clamp(Math.Ceiling(at + reach), 0, heights.Length - 1));
        var highest = double.NaN;
        for (var i = first; i <= end; i++)
            if (!double.IsNaN(heights[i]) && !(heights[i] <= highest)) highest = heights[i];
        return highest;
    }

    private double MeanM(double azimuthRad)
    {
        var (sum, weights) = (0.0, 0.0);
        foreach (var edge in edges)
        {
            if (edge.LengthM <= 0) continue;
            var weight = edge.LengthM * Math.Max(0, Math.Cos(azimuthRad - edge.OutwardRad));
            sum += weight * edge.MedianM;
            weights += weight;
        }
        return weights > 0 ? sum / weights : 0;
    }
}
