using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Nets grown to hold several grids, and cut to the ground around a place.</summary>
internal static class GridCut
{
    /// <summary>The same net over the columns from left to right and the rows from top to bottom, all counted from its first ones.</summary>
    /// <exception cref="BadInputException">So far it cannot reach.</exception>
    public static GridPosts Spanning(GridPosts posts, double left, double top, double right, double bottom)
    {
        try
        {
            checked
            {
                return posts.Extended((int)-left, (int)-top, (int)(bottom - top + 1), (int)(right - left + 1));
            }
        }
        catch (Exception fault) when (fault is BadInputException or OverflowException)
        {
            throw new BadInputException("grids", $"Together the grids span {right - left + 1:0} × {bottom - top + 1:0} posts of {posts.CellSize.Metres:0.##} m, too far apart to be one. Give those around the lookout. {(fault as BadInputException)?.Faults[0].Message}".TrimEnd());
        }
    }

    /// <summary>Cuts away what lies farther from the place than is wanted.</summary>
    /// <exception cref="BadInputException">The place is not in the net.</exception>
    public static GridPosts WithinReach(GridPosts posts, GridReading reading)
    {
        if (reading is not { Around: { } place, Within: { } reach }) return posts;
        var (x, y) = CellsOf(place, posts);
        var (column, row) = ((int)x, (int)y);
        var beside = posts.ToPoint(column < posts.Columns - 1 ? column + 1 : column - 1, row);
        var columnM = Geodesic.Between(posts.ToPoint(column, row), beside).Distance.Metres;
        return Around(posts, x, y, 2 * (reach.Metres / columnM), 2 * (reach.Metres / posts.CellSize.Metres));
    }

    /// <summary>Cuts a net that is too large to the largest part around the place that is not.</summary>
    /// <exception cref="BadInputException">There is no place to cut it to, or the place is not in the net.</exception>
    public static GridPosts ToWhatCanBeHeld(GridPosts posts, GridReading reading, string name)
    {
        if (posts.Count <= reading.MostPosts) return posts;
        if (reading.Around is not { } place) throw TooLarge(posts, reading.MostPosts, name, "Cut it to the country around the lookout, or give fewer tiles, nearer to one another.");
        var side = Math.Sqrt(reading.MostPosts);
        var columns = Math.Min(posts.Columns, Math.Max(side, reading.MostPosts / (double)posts.Rows));
        var (x, y) = CellsOf(place, posts);
        return Around(posts, x, y, Math.Floor(columns) - 1, Math.Floor(reading.MostPosts / columns) - 1);
    }

    /// <summary>Says that a net has more posts than can be held.</summary>
    public static BadInputException TooLarge(GridPosts posts, long most, string name, string remedy) =>
        new("grids", $"{name} spans {posts.Columns} × {posts.Rows} posts; at most {most} can be held at once. {remedy}");

    /// <summary>The part of a net with a place in its middle, or as near to it as the edge allows.</summary>
    private static GridPosts Around(GridPosts posts, double x, double y, double width, double height)
    {
        var (left, columns) = Part(x, width, posts.Columns);
        var (top, rows) = Part(y, height, posts.Rows);
        return columns == posts.Columns && rows == posts.Rows ? posts : posts.Extended(-left, -top, rows, columns);

        static (int First, int Count) Part(double middle, double length, int count)
        {
            var first = (int)Math.Max(0, Math.Ceiling(middle - (length / 2)));
            var last = (int)Math.Min(count - 1.0, Math.Floor(middle + (length / 2)));
            return last > first ? (first, last - first + 1) : (Math.Min(first, count - 2), 2);
        }
    }

    private static (double X, double Y) CellsOf(GeoPoint place, GridPosts posts) => posts.Contains(place)
        ? posts.ToCells(place)
        : throw new BadInputException("grids", $"Does not hold the place {place}: the ground reaches from {posts.SouthDeg:0.####} to {posts.NorthDeg:0.####} latitude and {posts.WestDeg:0.####} to {posts.EastDeg:0.####} longitude.");
}
