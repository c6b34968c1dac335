using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Light;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>What the season says fits, the forecast of that day says fits: random sets on random days of three grounds.</summary>
/// <remarks>A few always; 500 with GLOWCAST_PLANS=500.</remarks>
public class OneJudgeTests
{
    private const int Always = 48;

    private static readonly int Plans = int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_PLANS"), out var asked) ? asked : Always;

    [Theory]
    [InlineData("valley")]
    [InlineData("hills")]
    [InlineData("demo")]
    public void Season_and_forecast_give_one_verdict_or_the_season_says_that_it_is_close(string ground)
    {
        var (scene, plan) = SceneOf(ground);
        var season = Season.Over(scene, null, cancel: TestContext.Current.CancellationToken);
        var random = new Random(21);
        var (agreed, close, called, fitting, otherwise, offS) = (0, 0, 0, 0, new List<string>(), new List<double>());
        for (var i = 0; i < Plans / 3; i++)
        {
            var asked = Any(random, plan);
            var (quick, exact) = (Quick(season, asked, scene), Exact(asked, scene));
            var isClose = quick.Any(fit => fit.IsClose);
            var best = quick.Select(fit => fit.Verdict).DefaultIfEmpty(Verdict.NoLight).Min();
            if (exact.IsPossible) fitting++;
            if (isClose) called++;
            if (exact.EarliestStart is { } first && quick.Where(fit => fit.EarliestStart is not null).MinBy(fit => Math.Abs((fit.EarliestStart!.Value - first).TotalSeconds)) is { } near)
                offS.AddRange([Math.Abs((near.EarliestStart!.Value - first).TotalSeconds), Math.Abs((near.LatestStart!.Value - exact.LatestStart!.Value).TotalSeconds)]);
            if (Class(best) == Class(exact.Verdict)) agreed++;
            else if (isClose) close++;
            else otherwise.Add($"{asked.Date}: season {best} {string.Join(", ", quick.Select(fit => $"{fit.Chance:0.00} {fit.Room} {fit.EarliestStart}"))}; forecast {exact.Verdict} {exact.Chance:0.00} {exact.Margin} {exact.EarliestStart}; {string.Join(", ", exact.Reasons)}");
        }
        TestContext.Current.TestOutputHelper!.WriteLine($"{ground}: {agreed} agree, {close} differ and are called close, {otherwise.Count} differ; {fitting} fit or are tight; {called} are called close; starts differ by {string.Join(", ", offS.Order().Where((_, n) => n % Math.Max(1, offS.Count / 10) == 0).Select(off => $"{off:0}"))} s");
        Assert.True(otherwise.Count == 0, string.Join('\n', otherwise));
        Assert.True(fitting > Plans / 30, $"{fitting}");
        Assert.True(5 * close < Plans / 3, $"{close}");
    }

    private static Verdict Class(Verdict verdict) => verdict == Verdict.NoLight ? Verdict.TooLong : verdict;

    private static List<DayFit> Quick(Season season, Plan plan, Scene scene) =>
    [
        .. season.Days(plan.Date!.Value, plan.Date.Value, new SeasonScore(), new SeasonJudge(plan, scene.HighestCrest!.Value).FitOf, null, null, TestContext.Current.CancellationToken)[0]
            .Windows.Select(window => window.Fit!),
    ];

    private static SetFit Exact(Plan plan, Scene scene)
    {
        if (LightChart.Over(scene, LocalDay.Of(plan.Date!.Value, plan.Lookout!.Point, null), cancel: TestContext.Current.CancellationToken) is not { } chart) return SetFit.NoLight;
        var windows = WindowSearch.Windows(chart);
        var brightness = RidgeBrightness.Of(scene, chart.Track, plan.Conditions.Haze)!;
        List<Stretch> stretches = [.. windows.Select(window => new Stretch(chart.Track.SecondsAt(window.Start.At), chart.Track.SecondsAt(window.End.At)))];
        var set = SetOrder.For(plan, SpanLight.Of(chart), stretches, scene.HighestCrest!.Value);
        return FitSearch.Fit(new LightOfDay(chart, windows, brightness, SetWishes.Of(plan, plan.Date.Value)), new SetSequence(set));
    }

    /// <summary>From a quick row to sets of an hour, on any day of a year.</summary>
    private static Plan Any(Random random, Plan plan) => plan with
    {
        Date = new LocalDate(2026, 1, 1).PlusDays(random.Next(365)),
        ChooseDirection = random.Next(4) > 0,
        Set = plan.Set with
        {
            Rows = 1 + random.Next(3),
            Repeats = random.Next(4) == 0 ? random.Next(30) : random.Next(3),
            Orientation = random.Next(2) == 0 ? Orientation.Portrait : Orientation.Landscape,
            Overlap = 0.3 + (0.3 * random.NextDouble()),
            Order = new ShootingOrder(random.Next(2) == 0 ? SweepDirection.LeftToRight : SweepDirection.RightToLeft, random.Next(2) == 0 ? RowOrder.OneWay : RowOrder.BackAndForth),
            Times = plan.Set.Times with { Settle = Duration.FromSeconds(1 + (Math.Pow(random.NextDouble(), 3) * 60)), Exposure = Duration.FromSeconds(random.Next(3) == 0 ? 2 : 0.01) },
        },
    };

    private static (Scene Scene, Plan Plan) SceneOf(string ground)
    {
        var (grid, lookout, span, ridgeKm) = ground switch
        {
            "valley" => (Valley.Grid, Valley.Lookout, Valley.West, 8.0),
            "hills" => Hills(),
            _ => Demo(),
        };
        var plan = ValleyLight.Plan with
        {
            Span = span,
            Lookout = new Lookout(lookout.Point, Length.FromMetres(1.7), null),
            // Among hills as high as the ridge a fifth of the near ground is lit as soon as that is.
            Thresholds = LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(ridgeKm), ValleyLit = ground == "hills" ? 0.5 : LightThresholds.Usual.ValleyLit },
        };
        return (Scene.Of(grid, SightModel.Usual, lookout, span, plan.Thresholds), plan);
    }

    /// <summary>The made-up range of the samples, from its own lookout.</summary>
    private static (ElevationGrid, Place, BearingSpan, double) Demo()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Glowcast.sln"))) folder = folder.Parent!;
        using var file = File.OpenRead(Path.Combine(folder.FullName, "terrain-samples", "N46W032.hgt"));
        var grid = GridFile.Read(file, "N46W032.hgt");
        var lookout = new Lookout(GeoPoint.FromDegrees(46.37164, -31.22419), Length.FromMetres(1.7), null);
        return (grid, Forecaster.EyeOf(lookout, grid), BearingSpan.FromDegrees(248, 322), 10);
    }

    /// <summary>Hills of 900 m, of a size with their valleys, and a higher chain in the east.</summary>
    private static (ElevationGrid, Place, BearingSpan, double) Hills()
    {
        var noise = new SmoothNoise(new Random(4), 60);
        var grid = Tests.Terrain.Grids.Square(44, 9, (row, column) => Math.Max(200, 1000 + (450 * noise.At(column, row)) + (column is > 330 and < 360 ? 500 : 0)), size: 601);
        var eye = (Row: 300, Column: 320);
        var point = GeoPoint.FromDegrees(45 - (eye.Row / 600.0), 9 + (eye.Column / 600.0));
        return (grid, new Place(point, grid.HeightAt(point)!.Value + Length.FromMetres(300)), BearingSpan.FromDegrees(235, 300), 6);
    }
}
