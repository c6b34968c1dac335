using System.Globalization;
using System.Text.Json;

namespace Glowcast.Cli.Tests;

public class PlanCommandTests(MadeValley valley) : IClassFixture<MadeValley>
{
    [Fact]
    public async Task A_point_of_the_ridge_has_light_before_the_valley()
    {
        var crest = await Light(MadeValley.Crest);
        var floor = await Light(MadeValley.ValleyFloor);

        foreach (var name in (string[])["anyLimb", "centre", "wholeDisc"])
        {
            var (first, second) = (Assert.Single(crest.GetProperty(name).EnumerateArray()), Assert.Single(floor.GetProperty(name).EnumerateArray()));
            Assert.True(Start(first) < Start(second));
            Assert.True(first.GetProperty("startUncertaintyS").GetDouble() > 0);
            Assert.True(first.GetProperty("endUncertaintyS").GetDouble() > 0);
            var parts = first.GetProperty("startUncertainty").EnumerateObject().ToDictionary(part => part.Name, part => part.Value.GetDouble());
            Assert.Equal(["refractionS", "sightLineS", "terrainS"], parts.Keys.Order());
            Assert.Equal(first.GetProperty("startUncertaintyS").GetDouble(), Math.Sqrt(parts.Values.Sum(seconds => seconds * seconds)), 1e-6);
            Assert.Matches(@"^2026-03-20T\d\d:\d\d:\d\d\.\dZ$", first.GetProperty("end").GetString());
        }

        async Task<JsonElement> Light(string target) => (await Outcome.Of(
            "light", "--grid", valley.Grid, "--target", target, "--date", "2026-03-20", "--time-zone", "Europe/Zurich", "--json")).Json;
        static DateTimeOffset Start(JsonElement interval) => interval.GetProperty("start").GetDateTimeOffset();
    }

    [Fact]
    public async Task A_point_in_the_polar_night_has_no_light_and_that_is_an_answer()
    {
        var grid = valley.Write("north.asc", "ncols 2\nnrows 2\nxllcenter 15\nyllcenter 78\ncellsize 0.1\n0 0\n0 0\n");
        string[] line = ["light", "--grid", grid, "--target", "78.05,15.05", "--date", "2026-12-21"];

        var light = (await Outcome.Of([.. line, "--json"])).Json;
        var page = await Outcome.Of(line);

        Assert.Empty(light.GetProperty("anyLimb").EnumerateArray());
        Assert.Equal(0, page.Exit);
        Assert.Contains("No direct light", page.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_light_of_a_plan_has_windows_and_a_chart()
    {
        var light = (await Outcome.Of("light", "--plan", valley.Plan, "--json")).Json;

        Assert.NotEmpty(light.GetProperty("windows").EnumerateArray());
        var chart = light.GetProperty("chart");
        Assert.Equal(
            chart.GetProperty("minutes").GetInt32() * chart.GetProperty("columns").GetInt32(),
            chart.GetProperty("crest").GetBytesFromBase64().Length);
    }

    [Fact]
    public async Task A_forecast_has_all_that_is_promised()
    {
        var forecast = (await Outcome.Of("forecast", "--plan", valley.Plan, "--json")).Json;

        var window = Assert.Single(forecast.GetProperty("windows").EnumerateArray());
        Assert.Equal("ridgeLit", window.GetProperty("startCause").GetString());
        Assert.Equal("valleyLit", window.GetProperty("endCause").GetString());
        var fit = forecast.GetProperty("fit");
        Assert.Equal("fits", fit.GetProperty("verdict").GetString());
        Assert.True(fit.GetProperty("marginS").GetDouble() > 0);
        Assert.True(fit.GetProperty("earliestStart").GetDateTimeOffset() < fit.GetProperty("latestStart").GetDateTimeOffset());
        Assert.Equal(JsonValueKind.Null, fit.GetProperty("firstProblem").ValueKind);
        Assert.Empty(fit.GetProperty("remedies").EnumerateArray());
        Assert.True(forecast.TryGetProperty("cloud", out _));
        Assert.NotEmpty(forecast.GetProperty("cautions").EnumerateArray());
        Assert.Equal(2, forecast.GetProperty("set").GetProperty("rows").GetInt32());
    }

    [Fact]
    public async Task A_set_that_is_too_long_names_its_first_problem_and_what_helps()
    {
        var plan = valley.Write("long.json", MadeValley.PlanWith(("set.rows", 2), ("set.settleS", 120), ("set.repeats", 3)).ToJsonString());

        var fit = (await Outcome.Of("forecast", "--plan", plan, "--json")).Json.GetProperty("fit");
        var page = await Outcome.Of("forecast", "--plan", plan);

        Assert.Equal("tooLong", fit.GetProperty("verdict").GetString());
        Assert.True(fit.GetProperty("firstProblem").GetProperty("frame").GetInt32() > 0);
        Assert.NotEmpty(fit.GetProperty("remedies").EnumerateArray());
        Assert.Contains("It does not fit", page.Out, StringComparison.Ordinal);
        Assert.Contains("first problem", page.Out, StringComparison.Ordinal);
        Assert.Contains(fit.GetProperty("remedies")[0].GetProperty("change").GetString()!.Split(' ')[0], page.Out, StringComparison.Ordinal);
        Assert.All(page.Lines, line => Assert.True(line.Length <= 80, line));
    }

    [Fact]
    public async Task A_start_that_the_plan_gives_is_the_one_on_page_card_and_calendar()
    {
        var advised = (await Outcome.Of("forecast", "--plan", valley.Write("free.json", MadeValley.PlanWith().ToJsonString()), "--json")).Json.GetProperty("fit");
        var edited = MadeValley.PlanWith();
        var local = DateTimeOffset.Parse(advised.GetProperty("latestStartLocal").GetString()!, System.Globalization.CultureInfo.InvariantCulture).AddMinutes(-2).ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture);
        edited["set"]!["startAt"] = local;
        var plan = valley.Write("given.json", edited.ToJsonString());

        var fit = (await Outcome.Of("forecast", "--plan", plan, "--json")).Json.GetProperty("fit");
        Assert.Equal("given", fit.GetProperty("chosenBecause").GetString());
        Assert.Contains($"T{local}:00", fit.GetProperty("chosenStartLocal").GetString(), StringComparison.Ordinal);
        Assert.Equal(advised.GetProperty("recommendedStart").GetString(), fit.GetProperty("recommendedStart").GetString());
        var row = fit.GetProperty("starts").EnumerateArray().Single(start => start.GetProperty("start").GetString() == fit.GetProperty("chosenStart").GetString());
        Assert.Equal(fit.GetProperty("chance").GetDouble(), row.GetProperty("chance").GetDouble());
        Assert.Contains($"{local}:00 local", (await Outcome.Of("forecast", "--plan", plan)).Out, StringComparison.Ordinal);
        foreach (var name in new[] { "given.html", "given.ics" })
        {
            var file = valley.Write(name, "");
            File.Delete(file);
            await Outcome.Of("card", "--plan", plan, "--out", file);
            Assert.Contains($"{local}:00", await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_lookout_under_the_cloud_has_no_light_and_that_is_an_answer()
    {
        var plan = valley.Write("deck.json", MadeValley.PlanWith(("conditions.deckTopM", 1600)).ToJsonString());

        var forecast = (await Outcome.Of("forecast", "--plan", plan, "--json")).Json;
        var page = await Outcome.Of("forecast", "--plan", plan);

        Assert.Empty(forecast.GetProperty("windows").EnumerateArray());
        Assert.Equal("noLight", forecast.GetProperty("fit").GetProperty("verdict").GetString());
        Assert.Equal(0, page.Exit);
        Assert.Contains("under the cloud", page.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_set_needs_neither_grid_nor_lookout()
    {
        var plan = MadeValley.PlanWith();
        plan.Remove("grids");
        plan.Remove("lookout");
        plan.Remove("date");

        var set = (await Outcome.Of("set", "--plan", valley.Write("set.json", plan.ToJsonString()), "--json")).Json;

        foreach (var name in PromisedOfSet) Assert.Equal(JsonValueKind.Number, set.GetProperty(name).ValueKind);
        Assert.Equal(
            (set.GetProperty("columnsWithSpares").GetInt32(), 2 * set.GetProperty("columnsWithSpares").GetInt32()),
            (set.GetProperty("columns").GetInt32() + 2, set.GetProperty("framesPerSet").GetInt32()));
    }

    [Fact]
    public async Task The_command_line_may_say_another_grid_date_and_edge()
    {
        var plan = valley.Write("bare.json", MadeValley.PlanWith(("grids", null), ("date", null)).ToJsonString());

        var forecast = (await Outcome.Of("forecast", "--plan", plan, "--grid", valley.Grid, "--date", "2026-09-23", "--beyond", "none", "-k", "0.2", "--json")).Json;

        Assert.Equal("2026-09-23", forecast.GetProperty("date").GetString());
        Assert.Equal("nothing", forecast.GetProperty("assumed").GetProperty("beyondGrid").GetProperty("assumed").GetString());
        Assert.Equal(0.2, forecast.GetProperty("assumed").GetProperty("refractionK").GetDouble());
    }

    [Fact]
    public async Task The_terminal_shows_the_seconds_that_the_tenths_of_the_answer_come_to()
    {
        var answer = (await Outcome.Of("demo", "--json")).Json;
        var page = (await Outcome.Of("demo", "--no-serve")).Out;
        var (fit, window) = (answer.GetProperty("fit"), answer.GetProperty("windows")[0]);
        foreach (var moment in (JsonElement[])[window.GetProperty("start"), window.GetProperty("end"), fit.GetProperty("earliestStart"), fit.GetProperty("recommendedStart"), fit.GetProperty("latestStart")])
            Assert.Contains(moment.GetDateTimeOffset().AddSeconds(0.5).ToString("HH:mm:ss", CultureInfo.InvariantCulture), page, StringComparison.Ordinal);
        Assert.Equal(
            fit.GetProperty("recommendedStart").GetDateTimeOffset().AddSeconds(0.5).ToString("HH:mm:ss", CultureInfo.InvariantCulture),
            fit.GetProperty("recommendedStartLocal").GetDateTimeOffset().ToUniversalTime().ToString("HH:mm:ss", CultureInfo.InvariantCulture));
    }

    private static readonly string[] PromisedOfSet =
    [
        "columns", "rows", "frames", "horizontalFovDeg", "verticalFovDeg", "stepDeg", "widthPx", "printWidthMm", "firstToLastS", "setS", "totalS",
        "columnsWithSpares", "framesPerSet", "focalLengthPx", "pixelPitchUm", "coveredHorizontalDeg", "coveredVerticalDeg", "cleanWidthPx",
        "cleanHeightPx", "hyperfocalM", "nearLimitM", "airyDiameterUm", "parallaxFreeM", "levelCropPx", "maxSideGapS", "maxVerticalGapS",
    ];
}
