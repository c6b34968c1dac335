using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Lays grids of different nets onto one: the net of the finest, reaching over the ground of all.</summary>
/// <remarks>Posts of the finest keep their heights. Where it has none, the next finer grid that has ground there gives its
/// own bilinear surface; so there is no step at a seam where the two agree. What no grid covers is a hole; a cell that is
/// an area reaches half a cell beyond its post, so that no gap opens between neighbours of different nets.</remarks>
internal static class MixedMosaic
{
    // Between nets the way of a row is taken as straight over this many columns; it bends by centimetres there.
    private const int StraightColumns = 32;

    private const int RowsBetweenChecks = 8;

    // A post this near to one of the other net is that post.
    private const double Slack = 1e-6;

    private const double MostMeanDifferenceM = 50;

    /// <exception cref="BadInputException">Grids that disagree, or reach over more posts than can be held.</exception>
    public static JoinedGround OnFinest(IEnumerable<TilesOfNet> nets, GridReading reading)
    {
        var sorted = nets.OrderBy(net => net.CellSize.Metres).ToList();
        var whole = Around(sorted.ConvertAll(net => net.Around()));
        var posts = GridCut.WithinReach(whole, reading);
        if (posts.Count > reading.MostPosts)
            throw GridCut.TooLarge(posts, reading.MostPosts, "On the net of the finest, the ground of all", "Give fewer, nearer to one another, read less around the place, or make the finest coarser.");
        var heights = sorted[0].Join(posts);
        var coarser = sorted[1..].Select(net => PartUnder(posts, net, reading.MostPosts)).OfType<ElevationGrid>().ToList();
        foreach (var grid in coarser) Lay(grid, posts, heights, reach: 0);
        foreach (var grid in coarser) Lay(grid, posts, heights, reach: 0.5);
        return new JoinedGround(posts, heights, posts != whole);
    }

    private static GridPosts Around(List<GridPosts> sorted)
    {
        var finest = sorted[0];
        var corners = sorted[1..]
            .SelectMany(posts => posts.Rim().Select(cell => finest.CellsNear(posts.ToPoint(cell.X, cell.Y))))
            .Append((X: 0, Y: 0)).Append((X: finest.Columns - 1, Y: finest.Rows - 1)).ToList();
        var (left, top) = (Math.Ceiling(corners.Min(cell => cell.X) - Slack), Math.Ceiling(corners.Min(cell => cell.Y) - Slack));
        var (right, bottom) = (Math.Floor(corners.Max(cell => cell.X) + Slack), Math.Floor(corners.Max(cell => cell.Y) + Slack));
        return GridCut.Spanning(finest, left, top, right, bottom);
    }

    /// <summary>As much of a coarser net as lies under the posts; null where none does.</summary>
    /// <exception cref="BadInputException">It is coarser one way only, and has more posts than can be held.</exception>
    private static ElevationGrid? PartUnder(GridPosts posts, TilesOfNet net, long mostPosts)
    {
        // The rim of the posts bends between the points that are looked at.
        const int Margin = 8;
        var whole = net.Around();
        var corners = posts.Rim().Select(cell => whole.CellsNear(posts.ToPoint(cell.X, cell.Y))).ToList();
        var (left, right) = Reach(corners.Min(cell => cell.X), corners.Max(cell => cell.X), whole.Columns);
        var (top, bottom) = Reach(corners.Min(cell => cell.Y), corners.Max(cell => cell.Y), whole.Rows);
        if (right - left < 1 || bottom - top < 1) return null;
        var part = whole.Extended(-left, -top, bottom - top + 1, right - left + 1);
        if (part.Count > mostPosts) throw GridCut.TooLarge(part, mostPosts, net.Name, "Give fewer grids, or make its posts as far apart both ways.");
        return new ElevationGrid(part, net.Join(part), net.Name);

        // Far from its region a projection may give no number at all; then all is taken.
        static (int First, int Last) Reach(double least, double greatest, int count) => double.IsFinite(least + greatest)
            ? ((int)Math.Clamp(Math.Floor(least) - Margin, 0, count - 1), (int)Math.Clamp(Math.Ceiling(greatest) + Margin, 0, count - 1))
            : (0, count - 1);
    }

    private static void Lay(ElevationGrid grid, GridPosts posts, float[] heights, double reach)
    {
        var difference = new Difference();
        Parallel.For(0, posts.Rows, row =>
        {
            var target = heights.AsSpan(row * posts.Columns, posts.Columns);
            for (var column = 0; column < posts.Columns; column += StraightColumns)
                LayStretch(grid, posts, row, column, target[column..Math.Min(column + StraightColumns, posts.Columns)], reach, difference);
        });
        if (difference.MeanM > MostMeanDifferenceM)
            throw new BadInputException("grids", $"{grid.Name} disagrees with a finer grid by {difference.MeanM:0} m in the mean where they overlap; grids must agree within {MostMeanDifferenceM} m.");
    }

    private static void LayStretch(ElevationGrid grid, GridPosts posts, int row, int column, Span<float> target, double reach, Difference difference)
    {
        var (from, to) = (posts.ToPoint(column, row), posts.ToPoint(column + target.Length, row));
        if (!grid.Posts.IsNear(from) && !grid.Posts.IsNear(to)) return;
        var (first, end) = (grid.Posts.CellsNear(from), grid.Posts.CellsNear(to));
        var (stepX, stepY) = ((end.X - first.X) / target.Length, (end.Y - first.Y) / target.Length);
        var isChecked = reach == 0 && row % RowsBetweenChecks == 0;
        var (sumM, count) = (0.0, 0);
        for (var i = 0; i < target.Length; i++)
        {
            if (!float.IsNaN(target[i]) && !isChecked) continue;
            var height = (float)HeightAt(grid, first.X + (i * stepX), first.Y + (i * stepY), reach);
            if (float.IsNaN(target[i])) target[i] = height;
            else if (!float.IsNaN(height)) (sumM, count) = (sumM + Math.Abs(height - target[i]), count + 1);
        }
        if (count > 0) difference.Add(sumM, count);
    }

    private static double HeightAt(ElevationGrid grid, double x, double y, double reach)
    {
        var (right, bottom) = (grid.Posts.Columns - 1, grid.Posts.Rows - 1);
        (x, y) = (Snap(x), Snap(y));
        return x >= -reach && x <= right + reach && y >= -reach && y <= bottom + reach
            ? grid.HeightAtCells(Math.Clamp(x, 0, right), Math.Clamp(y, 0, bottom))
            : double.NaN;
    }

    private static double Snap(double cell) => Math.Abs(cell - Math.Round(cell)) < Slack ? Math.Round(cell) : cell;

    /// <summary>How far two grids are apart where both have heights; several rows may add to it at once.</summary>
    private sealed class Difference
    {
        private readonly Lock gate = new();
        private double sumM;
        private long count;

        public double MeanM => count == 0 ? 0 : sumM / count;

        public void Add(double moreM, int more)
        {
            lock (gate) (sumM, count) = (sumM + moreM, count + more);
        }
    }
}
