using System.Text.Json;
using System.Text.Json.Nodes;

namespace Glowcast.Cli.Tests;

public sealed class CloudCommandTests(MadeValley valley) : IClassFixture<MadeValley>
{
    /// <summary>Invented: fog under a strong inversion, its top near 1000 m.</summary>
    internal const string Fog = """
        time,longitude,latitude,pressure_hPa,geopotential height_m,temperature_C,dew point temperature_C,wind direction_degree,wind speed_m/s
        2026-03-20 05:04:00,7.7,46.1,943,600,0.0,-0.1,180,1.0
        2026-03-20 05:04:00,7.7,46.1,909,900,-1.5,-1.7,180,1.5
        2026-03-20 05:04:00,7.7,46.1,877,1200,6.0,-4.0,200,3.0
        2026-03-20 05:04:00,7.7,46.1,795,2000,2.0,-15.0,220,6.0
        2026-03-20 05:04:00,7.7,46.1,700,3020,-5.0,-25.0,240,9.0
        """;

    [Fact]
    public async Task It_answers_with_inversions_decks_likelihood_reasons_and_the_lookout()
    {
        var answer = (await Outcome.Of("cloud", Sounding(), "--lookout-height", "1500", "--json")).Json;
        Assert.Equal("elevated", answer.GetProperty("inversions")[0].GetProperty("type").GetString());
        Assert.Equal(7.5, answer.GetProperty("inversions")[0].GetProperty("strengthC").GetDouble(), 1e-9);
        var deck = answer.GetProperty("decks")[0];
        Assert.Equal("fog", deck.GetProperty("kind").GetString());
        // 0.2 °C at 900 m and 10 °C at 1200 m: 2 °C at 900 + 300 · 1.8/9.8.
        Assert.Equal(900 + (300 * 1.8 / 9.8), deck.GetProperty("topHighM").GetDouble(), 1e-6);
        Assert.Equal("high", answer.GetProperty("likelihood").GetString());
        Assert.True(answer.GetProperty("reasons").GetArrayLength() >= 4);
        Assert.Equal("above", answer.GetProperty("lookout").GetProperty("verdict").GetString());
        Assert.Contains("national weather service", answer.GetProperty("cautions")[0].GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_height_there_is_no_lookout() =>
        Assert.Equal(JsonValueKind.Null, (await Outcome.Of("cloud", Sounding(), "--json")).Json.GetProperty("lookout").ValueKind);

    [Fact]
    public async Task A_profile_from_far_off_and_long_ago_counts_less()
    {
        var answer = (await Outcome.Of("cloud", Sounding(), "--latitude", "47.2", "--longitude", "7.7", "--at", "2026-03-20T18:00Z", "--json")).Json;
        Assert.Equal("low", answer.GetProperty("likelihood").GetString());
        // 1.1° of latitude; from 05:04 to 18:00.
        Assert.Equal(122.3, answer.GetProperty("source").GetProperty("distanceKm").GetDouble(), 0.1);
        Assert.Equal(12.93, answer.GetProperty("source").GetProperty("ageH").GetDouble(), 0.01);
    }

    [Fact]
    public async Task It_can_be_read_without_JSON()
    {
        var outcome = await Outcome.Of("cloud", Sounding(), "--lookout-height", "700");
        Assert.Equal((0, ""), (outcome.Exit, outcome.Error));
        Assert.StartsWith("A sea of cloud: likely", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("stands in the deck", outcome.Out, StringComparison.Ordinal);
        Assert.All(outcome.Lines, line => Assert.True(line.Length <= 80, line));
    }

    [Fact]
    public async Task The_picture_marks_the_deck_and_the_lookout()
    {
        var rows = (await Outcome.Of("cloud", Sounding(), "--lookout-height", "1500")).Lines.Where(line => line.Contains(" m", StringComparison.Ordinal) && line.Contains('|', StringComparison.Ordinal)).ToList();
        Assert.Equal(16, rows.Count);
        // Fog from the ground, at 600 m, to 955 m; rows are 161 m apart, from 3020 m down.
        Assert.Equal([923, 761, 600], rows.Where(row => row.Contains("m~|", StringComparison.Ordinal)).Select(HeightOf));
        Assert.Equal([1568], rows.Where(row => row.Contains("m>|", StringComparison.Ordinal)).Select(HeightOf));
        // In the fog dew point and temperature stand side by side, or as one.
        Assert.DoesNotMatch("d +T", rows[^1]);
        Assert.Matches("d +T", rows[0]);

        static int HeightOf(string row) => int.Parse(row.AsSpan(0, row.IndexOf(" m", StringComparison.Ordinal)), System.Globalization.CultureInfo.InvariantCulture);
    }

    [Fact]
    public async Task The_forecast_to_be_read_tells_of_deck_sky_and_what_a_higher_deck_would_leave()
    {
        Sounding();
        var plan = valley.Write("read.json", MadeValley.PlanWith(("conditions.sounding", "fog.csv"), ("conditions.cloudLayers", HighCloud())).ToJsonString());
        var outcome = await Outcome.Of("forecast", "--plan", plan);
        Assert.Equal(0, outcome.Exit);
        Assert.Contains("The sea of cloud", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("The sounding shows a deck", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("Needs clear sky", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("crest left", outcome.Out, StringComparison.Ordinal);
        Assert.All(outcome.Lines, line => Assert.True(line.Length <= 80, line));
    }

    [Fact]
    public async Task Cloud_towards_the_sun_becomes_a_condition_on_the_sky()
    {
        var cloud = (await Forecast(("conditions.cloudLayers", HighCloud()))).GetProperty("cloud");
        var cut = cloud.GetProperty("sunward")[0];
        Assert.Equal("high", cut.GetProperty("level").GetString());
        Assert.True(cut.GetProperty("farKm").GetDouble() > cut.GetProperty("nearKm").GetDouble());
        Assert.StartsWith("Needs clear sky", cut.GetProperty("condition").GetString(), StringComparison.Ordinal);
        Assert.Equal("none", cloud.GetProperty("deckFrom").GetString());
    }

    [Fact]
    public async Task A_rising_deck_is_told_height_by_height()
    {
        var sweep = (await Forecast()).GetProperty("cloud").GetProperty("sweep");
        var rows = sweep.GetProperty("table").EnumerateArray().ToList();
        Assert.False(rows[0].GetProperty("lookoutDrowned").GetBoolean());
        Assert.True(rows[^1].GetProperty("lookoutDrowned").GetBoolean());
        Assert.Equal(1, rows[0].GetProperty("crestShare").GetDouble());
        Assert.True(rows[^1].GetProperty("deckTopM").GetDouble() >= sweep.GetProperty("lookoutDrownedM").GetDouble());
    }

    [Fact]
    public async Task Bad_input_is_named_and_all_of_it_at_once()
    {
        Assert.Equal(["file"], (await Outcome.Of("cloud")).Faults);
        Assert.Equal(["file"], (await Outcome.Of("cloud", Sounding(), Sounding())).Faults);
        Assert.Equal(["file missing.txt"], (await Outcome.Of("cloud", "missing.txt")).Faults);
        Assert.Equal([$"file {valley.Grid}"], (await Outcome.Of("cloud", valley.Grid)).Faults);
        var wrong = (await Outcome.Of("cloud", valley.Grid, "--lookout-height", "9001", "--latitude", "46", "--at", "noon")).Faults;
        Assert.Equal(["--lookout-height", "--longitude", "--at", $"file {valley.Grid}"], wrong);
    }

    [Fact]
    public async Task A_plans_sounding_gives_the_deck_of_its_forecast()
    {
        Sounding();
        var cloud = (await Forecast(("conditions.sounding", "fog.csv"))).GetProperty("cloud");
        Assert.Equal("sounding", cloud.GetProperty("deckFrom").GetString());
        Assert.Equal(900 + (300 * 1.8 / 9.8), cloud.GetProperty("deckTopM").GetDouble(), 1e-6);
        Assert.Equal("above", cloud.GetProperty("sounding").GetProperty("lookout").GetProperty("verdict").GetString());

        // Hours of sun are counted from when half of the deck is lit.
        var burnOff = cloud.GetProperty("sounding").GetProperty("burnOff");
        var lit = cloud.GetProperty("light").GetProperty("halfLit").GetDateTimeOffset();
        Assert.Equal(burnOff.GetProperty("earliestHours").GetDouble(), (cloud.GetProperty("clearsFrom").GetDateTimeOffset() - lit).TotalHours, 0.001);
        Assert.Equal(burnOff.GetProperty("latestHours").GetDouble(), (cloud.GetProperty("clearsTo").GetDateTimeOffset() - lit).TotalHours, 0.001);
    }

    [Fact]
    public async Task A_typed_deck_goes_before_the_sounding_and_that_is_said()
    {
        Sounding();
        var cloud = (await Forecast(("conditions.sounding", "fog.csv"), ("conditions.deckTopM", 1100))).GetProperty("cloud");
        Assert.Equal(("typed", 1100), (cloud.GetProperty("deckFrom").GetString(), cloud.GetProperty("deckTopM").GetDouble()));
        Assert.Contains("is not used", cloud.GetProperty("sentence").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_season_is_given_the_deck_too()
    {
        Sounding();
        var plan = valley.Write("season.json", MadeValley.PlanWith(("conditions.sounding", "fog.csv")).ToJsonString());
        var season = (await Outcome.Of("season", "--plan", plan, "--from", "2026-03-20", "--to", "2026-03-21", "--json")).Json;
        Assert.Equal("sounding", season.GetProperty("plans")[0].GetProperty("cloud").GetProperty("deckFrom").GetString());
    }

    [Fact]
    public async Task A_sounding_that_is_none_is_a_fault_of_the_plan()
    {
        var plan = valley.Write("none.json", MadeValley.PlanWith(("conditions.sounding", "valley.asc")).ToJsonString());
        Assert.StartsWith("conditions.sounding", Assert.Single((await Outcome.Of("forecast", "--plan", plan)).Faults), StringComparison.Ordinal);
    }

    private static JsonObject HighCloud() => new() { ["high"] = new JsonObject { ["cover"] = 0.5, ["baseM"] = 9000 } };

    private string Sounding() => valley.Write("fog.csv", Fog);

    private async Task<JsonElement> Forecast(params (string, JsonNode?)[] changes)
    {
        var plan = valley.Write("cloud-plan.json", MadeValley.PlanWith(changes).ToJsonString());
        return (await Outcome.Of("forecast", "--plan", plan, "--json")).Json;
    }
}
