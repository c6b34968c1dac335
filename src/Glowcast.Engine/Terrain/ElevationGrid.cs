using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Heights [m above the file's vertical datum] on a regular grid of posts; row 0 is the northernmost, column 0
/// the westernmost. Between four posts the ground is their bilinear surface.</summary>
/// <remarks>Immutable, so one grid serves any number of requests at once. A post without data holds NaN: a hole, which
/// has no height and stands in nobody's way.</remarks>
public sealed class ElevationGrid
{
    /// <summary>No grid holds more: their heights alone take 1.6 GB.</summary>
    internal const long MostPosts = 400_000_000;

    private readonly float[] heights;
    private readonly Lazy<MaximumPyramid> pyramid;
    private readonly Lazy<double> crestDropM;

    /// <param name="heights">Row-major, rows × columns; not copied, so hand over an array that nobody keeps.</param>
    /// <param name="verticalDatum">Null where the source does not name it.</param>
    /// <exception cref="ArgumentException">Numbers that do not agree.</exception>
    public ElevationGrid(GridPosts posts, float[] heights, string name, string? verticalDatum = null)
    {
        ArgumentNullException.ThrowIfNull(posts);
        ArgumentNullException.ThrowIfNull(heights);
        if (heights.LongLength != (long)posts.Rows * posts.Columns)
            throw new ArgumentException($"{posts.Rows} × {posts.Columns} posts need {(long)posts.Rows * posts.Columns} heights; got {heights.LongLength}.", nameof(heights));
        Posts = posts;
        Name = name;
        VerticalDatum = verticalDatum;
        this.heights = heights;
        pyramid = new Lazy<MaximumPyramid>(() => MaximumPyramid.Over(heights, posts.Rows, posts.Columns));
        crestDropM = new Lazy<double>(() => CrestSharpness.RmsDropM(this));
        Relief = ReliefOf(heights);
    }

    public GridPosts Posts { get; }

    /// <summary>What the user knows it by: the file's name, or the names of the joined files.</summary>
    public string Name { get; }

    /// <summary>What heights are counted from, by name; null where the source does not say.</summary>
    public string? VerticalDatum { get; }

    /// <summary>Lowest and highest post, and how many have no height.</summary>
    public Relief Relief { get; }

    internal ReadOnlySpan<float> Heights => heights;

    /// <inheritdoc cref="CrestSharpness.RmsDropM"/>
    internal double CrestDropM => crestDropM.Value;

    internal MaximumPyramid Maxima => pyramid.Value;

    public bool Contains(GeoPoint point) => Posts.Contains(point);

    /// <summary>The ground's height, or null where the grid has none: outside it, or beside a hole.</summary>
    public Length? HeightAt(GeoPoint point)
    {
        if (!Contains(point)) return null;
        var (x, y) = Posts.ToCells(point);
        var height = HeightAtCells(x, y);
        return double.IsNaN(height) ? null : Length.FromMetres(height);
    }

    /// <summary>One row, west to east.</summary>
    public ReadOnlySpan<float> Row(int row) => heights.AsSpan(row * Posts.Columns, Posts.Columns);

    /// <summary>The same ground under a sea of cloud: nowhere lower than <paramref name="deckTop"/>. Holes stay holes.</summary>
    public ElevationGrid Under(Length deckTop)
    {
        var top = (float)deckTop.Metres;
        return new ElevationGrid(Posts, Array.ConvertAll(heights, height => height < top ? top : height), Name, VerticalDatum);
    }

    /// <summary>Bilinear height [m] at fractional column x and row y inside the grid; NaN beside a hole. A post counts
    /// only where it has weight, so a post with a height has it whatever stands around.</summary>
    internal double HeightAtCells(double x, double y)
    {
        var column = Math.Clamp((int)x, 0, Posts.Columns - 2);
        var row = Math.Clamp((int)y, 0, Posts.Rows - 2);
        var (u, v) = (x - column, y - row);
        var i = (row * Posts.Columns) + column;
        return Part((1 - u) * (1 - v), heights[i]) + Part(u * (1 - v), heights[i + 1])
            + Part((1 - u) * v, heights[i + Posts.Columns]) + Part(u * v, heights[i + Posts.Columns + 1]);

        static double Part(double weight, float height) => weight == 0 ? 0 : weight * height;
    }

    private static Relief ReliefOf(float[] heights)
    {
        var (lowest, highest, holes) = (float.PositiveInfinity, float.NegativeInfinity, 0);
        foreach (var height in heights)
        {
            if (float.IsNaN(height))
            {
                holes++;
                continue;
            }
            lowest = Math.Min(lowest, height);
            highest = Math.Max(highest, height);
        }
        return holes == heights.Length
            ? new Relief(null, null, holes)
            : new Relief(Length.FromMetres(lowest), Length.FromMetres(highest), holes);
    }
}

/// <summary>The range of heights in a grid.</summary>
/// <param name="Lowest">Null when no post has a height.</param>
/// <param name="Highest">Null when no post has a height.</param>
/// <param name="Holes">Posts without a height.</param>
public readonly record struct Relief(Length? Lowest, Length? Highest, int Holes);
