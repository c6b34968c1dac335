using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Ten kinds of ground: a ridge in the west, seen from the middle, and another behind the lookout that shades the valley.</summary>
internal static class MadeGrounds
{
    private const int Size = 241;
    private const double CellDeg = 1 / 1200.0;
    private const double NorthDeg = 46.6;
    private const double WestDeg = 7;

    private static readonly SmoothNoise Rough = new(new Random(5), 900);
    private static readonly SmoothNoise RougherStill = new(new Random(6), 300);

    // Heights [m] by metres east and north of the middle.
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

    public static IReadOnlyList<string> Kinds { get; } = [.. Grounds.Keys];

    /// <summary>The usual ones, with the ridge well behind the valley.</summary>
    public static LightThresholds Thresholds { get; } = LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(5.03) };

    /// <param name="movedCells">By so much all posts lie elsewhere, the ground staying where it is not: it moves with them.</param>
    /// <param name="stretched">By so much posts lie farther apart.</param>
    /// <param name="sampledAt">By so much of a cell the ground itself is read elsewhere, east and north.</param>
    /// <param name="error">Added to the heights, by metres east and north.</param>
    public static ElevationGrid GridOf(
        string kind, double movedCells = 0, double stretched = 0, (double East, double North) sampledAt = default, Func<double, double, double>? error = null)
    {
        var height = Grounds[kind];
        var step = CellDeg * (1 + stretched);
        var posts = new GridPosts(Size, Size, NorthDeg + (movedCells * CellDeg), WestDeg + (movedCells * CellDeg), step, step);
        var (perRowM, perColumnM) = (111_160 * CellDeg, 111_320 * CellDeg * Math.Cos(double.DegreesToRadians(NorthDeg)));
        var heights = new float[Size * Size];
        Parallel.For(0, Size, row =>
        {
            for (var column = 0; column < Size; column++)
            {
                var (x, y) = ((column - (Size / 2)) * perColumnM, ((Size / 2) - row) * perRowM);
                heights[(row * Size) + column] = (float)(400 + height(x + (sampledAt.East * perColumnM), y + (sampledAt.North * perRowM)) + (error?.Invoke(x, y) ?? 0));
            }
        });
        return new ElevationGrid(posts, heights, "made for a test");
    }

    /// <summary>From 300 m over the middle to the west.</summary>
    public static Scene SceneOf(ElevationGrid grid, SightModel model, LightThresholds thresholds, SceneFineness fineness)
    {
        var point = GeoPoint.FromDegrees(NorthDeg - (Size / 2 * CellDeg), WestDeg + (Size / 2 * CellDeg));
        return Scene.Of(
            grid, model, new Place(point, grid.HeightAt(point)!.Value + Length.FromMetres(300)), BearingSpan.FromDegrees(255, 285), thresholds, null, null,
            crest => new PictureBounds(crest - Angle.FromDegrees(9.01), crest + Angle.FromDegrees(3)), fineness);
    }

    private static double Wall(double x) => Math.Max(Math.Max(0, 1300 - (0.5 * Math.Abs(x + 7000))), Behind(x));

    private static double Behind(double x) => Math.Max(0, 900 - (0.6 * Math.Abs(x - 4000)));

    private static double Dome(double x, double y) => Math.Exp(-((x * x) + (y * y)) / (2 * 1800 * 1800));

    private static double Tooth(double turns) => Math.Abs((2 * (turns - Math.Floor(turns))) - 1);
}
