using System.Globalization;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Benchmarks;

/// <summary>Our side of against-grass.sh: medians of CPU seconds (user and system, all threads), one line a job.</summary>
internal static class AgainstGrass
{
    private const int Rounds = 7;
    private const int Places = 100_000;

    private static readonly LocalDate First = new(2026, 2, 14);

    // Spread over the circle; 360 directions are counted as so many times the mean of these.
    private static readonly double[] Azimuths = [5, 25, 50, 70, 95, 120, 140, 165, 190, 215, 235, 260, 285, 310, 330, 350];

    public static void Run(string tile)
    {
        var grid = Tiles.Read(tile);
        var lookout = Tiles.Summit(grid);
        Print("lookout_lat", lookout.Point.LatitudeDeg);
        Print("lookout_lon", lookout.Point.LongitudeDeg);
        var sweep = new HorizonSweep(grid, SightModel.Usual);
        var horizonRad = new float[grid.Posts.Rows * grid.Posts.Columns];
        Print("posts", horizonRad.Length);
        Print("sweep_whole_tile_s", PerDirection(azimuth => sweep.Run(azimuth, horizonRad)));

        var visible = Visible(grid, lookout);
        var azimuths = Enumerable.Range(0, 360).Select(degrees => Azimuth.FromDegrees(degrees)).ToList();
        var (fan, horizons) = (new HorizonFan(grid, SightModel.Usual, azimuths), new float[visible.Count * azimuths.Count]);
        Print("visible_places", visible.Count);
        Print("fan_s", Median(() => fan.Run(visible, horizons)));
        var (sights, some) = (new SightLines(grid, SightModel.Usual), visible.Take(5000).ToList());
        Print("ray_s", PerDirection(azimuth => Parallel.ForEach(some, place => sights.HorizonOf(place, azimuth))) / some.Count);

        Print("visible_surface_s", Median(() => VisibleSurface.From(grid, SightModel.Usual, lookout, Tiles.AllRound, 7200)));
        Charts(grid, lookout);
    }

    /// <summary>The light chart of one day with its table, and of a second day from the table that is there.</summary>
    private static void Charts(ElevationGrid grid, Place lookout)
    {
        Scene? scene = null;
        Print("first_chart_s", Median(() =>
        {
            scene = Scene.Of(grid, SightModel.Usual, lookout, BearingSpan.FromDegrees(210, 330), LightThresholds.Usual);
            Chart(scene, First);
        }));
        Print("second_chart_s", Median(() => Chart(scene!, First.PlusDays(30))));
        Print("patches", scene!.Patches.Count);
        Print("minutes", Chart(scene, First).Minutes);
    }

    private static LightChart Chart(Scene scene, LocalDate date) => LightChart.Over(scene, LocalDay.Of(date, scene.Lookout.Point, null))!;

    /// <summary>Posts that the lookout sees, thinned or repeated to the wanted number.</summary>
    private static List<Place> Visible(ElevationGrid grid, Place lookout)
    {
        var seen = VisibleSurface.From(grid, SightModel.Usual, lookout, Tiles.AllRound, 7200);
        var places = new List<Place>();
        foreach (var column in seen.Columns)
        {
            var line = new GroundLine(lookout.Point, column.Bearing);
            places.AddRange(column.Samples.Select(sample => new Place(line.At(sample.DistanceM), Length.FromMetres(sample.HeightM))));
        }
        var random = new Random(1);
        return [.. Enumerable.Range(0, Places).Select(_ => places[random.Next(places.Count)])];
    }

    private static double PerDirection(Action<Azimuth> run) => Median(() =>
    {
        foreach (var degrees in Azimuths) run(Azimuth.FromDegrees(degrees));
    }) / Azimuths.Length;

    internal static double Median(Action run)
    {
        // Until the compiler has settled.
        for (var i = 0; i < 3; i++) run();
        return Enumerable.Range(0, Rounds).Select(_ => Processor.SecondsOf(run)).Order().ElementAt(Rounds / 2);
    }

    internal static void Print(string name, double value) =>
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}={value:0.#########}"));
}
