using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Heights [m above the file's vertical datum] on a regular grid of posts; row 0 is the northernmost, column 0
/// the westernmost. Between four posts the ground is their bilinear surface.</summary>
/// <remarks>Immutable, so one grid serves any number of requests at once. A post without data holds NaN: a hole, which
/// has no height and stands in nobody's way.</remarks>
public sealed class ElevationGrid
{
    /// <summary>No grid holds more: their heights alone take 1.6 GB. Thirty tiles of 3601 × 3601 are fewer.</summary>
    public const long MostPosts = 400_000_000;

    private readonly float[] heights;
    private readonly float floorM;
    private readonly Lazy<float[]> raised;
    private readonly Lazy<MaximumPyramid> pyramid;
    private readonly Lazy<double> crestDropM;
    private readonly Lazy<EdgeHeights> edgeHeights;

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
        floorM = float.NegativeInfinity;
        raised = new Lazy<float[]>(heights);
        pyramid = new Lazy<MaximumPyramid>(() => MaximumPyramid.Over(heights, posts.Rows, posts.Columns));
        crestDropM = new Lazy<double>(() => CrestSharpness.RmsDropM(posts.Rows, posts.Columns, Row));
        edgeHeights = new Lazy<EdgeHeights>(() => new EdgeHeights(posts, PostM));
        Relief = Relief.Of(heights);
    }

    private ElevationGrid(ElevationGrid bare, float floorM)
    {
        (Posts, Name, VerticalDatum, heights, this.floorM) = (bare.Posts, bare.Name, bare.VerticalDatum, bare.heights, floorM);
        (IsCut, FilledPosts, UnmarkedHoles, HeightError) = (bare.IsCut, bare.FilledPosts, bare.UnmarkedHoles, bare.HeightError);
        raised = new Lazy<float[]>(() => Array.ConvertAll(heights, Raised));
        pyramid = new Lazy<MaximumPyramid>(() => bare.Maxima.RaisedTo(floorM));
        crestDropM = bare.crestDropM;
        edgeHeights = new Lazy<EdgeHeights>(() => new EdgeHeights(Posts, PostM));
        Relief = bare.Relief.RaisedTo(floorM);
    }

    private ElevationGrid(ElevationGrid same)
    {
        (Posts, Name, VerticalDatum, heights, floorM) = (same.Posts, same.Name, same.VerticalDatum, same.heights, same.floorM);
        (IsCut, FilledPosts, UnmarkedHoles, Relief) = (same.IsCut, same.FilledPosts, same.UnmarkedHoles, same.Relief);
        (raised, pyramid, crestDropM, edgeHeights) = (same.raised, same.pyramid, same.crestDropM, same.edgeHeights);
    }

    public GridPosts Posts { get; }

    /// <summary>What the user knows it by: the file's name, or the names of the joined files.</summary>
    public string Name { get; }

    /// <summary>What heights are counted from, by name; null where the source does not say.</summary>
    public string? VerticalDatum { get; }

    /// <summary>The files reach farther: only the ground around a place was read.</summary>
    public bool IsCut { get; init; }

    /// <summary>Posts that had no height in any file and were given one from around them.</summary>
    public int FilledPosts { get; init; }

    /// <summary>Posts of the files that held a value which can only stand for no data, such as −9999, though their file does not
    /// say so: they are holes.</summary>
    public long UnmarkedHoles { get; init; }

    /// <summary>By how much the heights may be off.</summary>
    public HeightError HeightError { get; init; } = HeightError.Usual;

    /// <summary>Lowest and highest post, and how many have no height.</summary>
    public Relief Relief { get; }

    /// <summary>All heights in one piece. Of ground under a deck this makes a copy of them, once; single heights and
    /// <see cref="Maxima"/> do without.</summary>
    internal ReadOnlySpan<float> Heights => raised.Value;

    /// <summary>All heights in one piece, of the bare ground: where they are lower, those of this grid are <see cref="FloorM"/>.</summary>
    internal ReadOnlySpan<float> BareHeights => heights;

    /// <summary>No height is lower [m]; −∞ where nothing lies on the ground.</summary>
    internal float FloorM => floorM;

    /// <inheritdoc cref="CrestSharpness.RmsDropM"/>
    internal double CrestDropM => crestDropM.Value;

    internal MaximumPyramid Maxima => pyramid.Value;

    /// <summary>How high the ground stands along the four edges.</summary>
    internal EdgeHeights EdgeHeights => edgeHeights.Value;

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
    public ReadOnlySpan<float> Row(int row) => Heights.Slice(row * Posts.Columns, Posts.Columns);

    /// <summary>The same ground under a sea of cloud: nowhere lower than <paramref name="deckTop"/>. Holes stay holes.</summary>
    /// <remarks>Shares the heights of this one.</remarks>
    public ElevationGrid Under(Length deckTop) => new(this, Math.Max(floorM, (float)deckTop.Metres));

    /// <summary>The same ground, its heights known better, or worse, than by their file. Shares the heights of this one.</summary>
    public ElevationGrid With(HeightError error) => new(this) { HeightError = error };

    /// <summary>Bilinear height [m] at fractional column x and row y inside the grid; NaN beside a hole. A post counts
    /// only where it has weight, so a post with a height has it whatever stands around.</summary>
    internal double HeightAtCells(double x, double y)
    {
        var column = Math.Clamp((int)x, 0, Posts.Columns - 2);
        var row = Math.Clamp((int)y, 0, Posts.Rows - 2);
        var (u, v) = (x - column, y - row);
        var corners = Corners(column, row);
        return Part((1 - u) * (1 - v), corners.NorthWest) + Part(u * (1 - v), corners.NorthEast)
            + Part((1 - u) * v, corners.SouthWest) + Part(u * v, corners.SouthEast);

        static double Part(double weight, float height) => weight == 0 ? 0 : weight * height;
    }

    /// <summary>The four posts [m] around one cell; NaN for a hole.</summary>
    internal (float NorthWest, float NorthEast, float SouthWest, float SouthEast) Corners(int column, int row)
    {
        var i = (row * Posts.Columns) + column;
        return (Raised(heights[i]), Raised(heights[i + 1]), Raised(heights[i + Posts.Columns]), Raised(heights[i + Posts.Columns + 1]));
    }

    private double PostM(int column, int row) => Raised(heights[(row * Posts.Columns) + column]);

    // A NaN is not lower, and stays.
    private float Raised(float height) => height < floorM ? floorM : height;
}
