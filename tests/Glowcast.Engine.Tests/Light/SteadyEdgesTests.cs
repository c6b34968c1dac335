using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Edges of windows hang on the ground and the sun, not on how finely the search looks or where the posts of the grid lie.</summary>
public class SteadyEdgesTests
{
    private const double MostS = 2;
    private const double MostShare = 0.01;
    private const int Size = 241;
    private const double CellDeg = 1 / 1200.0;
    private const double NorthDeg = 46.6;
    private const double WestDeg = 7;

    private static readonly SceneFineness Halved = new(20, Angle.FromDegrees(0.2), 0.5);

    private static readonly SmoothNoise Rough = new(new Random(5), 900);
    private static readonly SmoothNoise RougherStill = new(new Random(6), 300);

    public static TheoryData<string> Kinds => [.. Grounds.Keys];

    /// <summary>Heights [m] by metres east and north of the middle, the lookout's place there, and where the ridge begins [km].</summary>
    private static readonly Dictionary<string, Func<double, double, double>> Grounds = new()
    {
        ["wall"] = (x, _) => Wall(x),
        ["slanting wall"] = (x, y) => Wall(x + (0.3 * y)),
        ["saddle"] = (x, y) => Wall(x) * (0.75 + (0.25 * Math.Cos(y / 1500))),
        ["saw-tooth of spurs"] = (x, y) => Wall(x) + (x < -4000 ? 120 * Tooth(y / 700) : 0),
        ["cone"] = (x, y) => Math.Max(0, 1500 - (0.35 * double.Hypot(x + 8500, y))) + Behind(x),
        ["dome"] = (x, y) => (1500 * Math.Exp(-((x + 8000) * (x + 8000) + (y * y)) / (2 * 2500 * 2500))) + Behind(x),
        ["two ridges"] = (x, y) => Math.Max(Wall(x + 900) * (0.8 + (0.2 * Math.Sin(y / 900))), 600 - (0.3 * Math.Abs(x + 6500))),
        ["pass between two domes"] = (x, y) => (1400 * (Dome(x + 8000, y - 2600) + Dome(x + 8000, y + 2600))) + Behind(x),
        ["rolling ground"] = (x, y) => Wall(x) + (100 * Math.Sin(x / 400) * Math.Cos(y / 550)),
        ["rough ground"] = (x, y) => Wall(x) + (x < -4500 || x > 2500 ? 60 * (Rough.At(x, y) + (0.5 * RougherStill.At(x, y))) : 0),
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Halving_every_step_moves_no_edge(string kind)
    {
        var grid = GridOf(kind);
        HoldTogether(EdgesOf(grid, SceneFineness.Usual), EdgesOf(grid, Halved));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Moving_the_posts_by_a_millionth_of_a_cell_moves_no_edge(string kind)
    {
        var usual = EdgesOf(GridOf(kind), SceneFineness.Usual);
        HoldTogether(usual, EdgesOf(GridOf(kind, movedCells: 1e-6), SceneFineness.Usual));
        HoldTogether(usual, EdgesOf(GridOf(kind, stretched: 1e-15), SceneFineness.Usual));
    }

    private static void HoldTogether(Edges a, Edges b)
    {
        var text = string.Join("; ", a.Ends.Zip(b.Ends, (one, other) => $"{one.Seconds:0.0} {other.Seconds - one.Seconds:+0.0;-0.0}"));
        TestContext.Current.TestOutputHelper?.WriteLine(text);
        Assert.NotEmpty(a.Ends);
        Assert.Equal(a.Ends.Count, b.Ends.Count);
        foreach (var (one, other) in a.Ends.Zip(b.Ends))
        {
            // Where light comes or goes so slowly that one percent of the ground takes longer than that, one percent.
            var apart = Math.Abs(one.Share.At(one.Seconds) - other.Share.At(one.Seconds));
            Assert.True(Math.Abs(one.Seconds - other.Seconds) <= MostS || apart <= MostShare, $"{one.Seconds:0.0} s, {other.Seconds:0.0} s; {apart:0.0000} of the ground");
        }
    }

    private sealed record Edges(IReadOnlyList<(double Seconds, ShareOverTime Share)> Ends);

    private static Edges EdgesOf(ElevationGrid grid, SceneFineness fineness)
    {
        var point = GeoPoint.FromDegrees(NorthDeg - (Size / 2 * CellDeg), WestDeg + (Size / 2 * CellDeg));
        var eye = new Place(point, grid.HeightAt(point)!.Value + Length.FromMetres(300));
        var thresholds = LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(5.03) };
        var scene = Scene.Of(
            grid, SightModel.Usual, eye, BearingSpan.FromDegrees(255, 285), thresholds, null, null,
            crest => new PictureBounds(crest - Angle.FromDegrees(9.01), crest + Angle.FromDegrees(3)), fineness);
        var day = LocalDay.Of(new LocalDate(2026, 10, 20), point, null);
        var chart = LightChart.Over(scene, day, cancel: TestContext.Current.CancellationToken)!;
        return new Edges([.. EndsOf(chart.Ridge.LitEnough(thresholds), chart.RidgeColumns), .. EndsOf(chart.ValleyShaded ?? [], chart.Valley)]);

        IEnumerable<(double, ShareOverTime)> EndsOf(IEnumerable<Stretch> stretches, ShareOverTime? share) =>
            stretches.SelectMany(stretch => new[] { (stretch.StartS, share!), (stretch.EndS, share!) });
    }

    private static ElevationGrid GridOf(string kind, double movedCells = 0, double stretched = 0)
    {
        var height = Grounds[kind];
        var step = CellDeg * (1 + stretched);
        var posts = new GridPosts(Size, Size, NorthDeg + (movedCells * CellDeg), WestDeg + (movedCells * CellDeg), step, step);
        var (perRowM, perColumnM) = (111_160 * CellDeg, 111_320 * CellDeg * Math.Cos(double.DegreesToRadians(NorthDeg)));
        var heights = new float[Size * Size];
        for (var row = 0; row < Size; row++)
            for (var column = 0; column < Size; column++)
                heights[(row * Size) + column] = (float)(400 + height((column - (Size / 2)) * perColumnM, ((Size / 2) - row) * perRowM));
        return new ElevationGrid(posts, heights, "made for a test");
    }

    // A ridge in the west, seen from the middle, and another behind the lookout that shades the valley.
    private static double Wall(double x) => Math.Max(Math.Max(0, 1300 - (0.5 * Math.Abs(x + 7000))), Behind(x));

    private static double Behind(double x) => Math.Max(0, 900 - (0.6 * Math.Abs(x - 4000)));

    private static double Dome(double x, double y) => Math.Exp(-((x * x) + (y * y)) / (2 * 1800 * 1800));

    private static double Tooth(double turns) => Math.Abs((2 * (turns - Math.Floor(turns))) - 1);
}
