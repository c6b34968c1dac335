using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using Glowcast.Server.Notes;

namespace Glowcast.Server.Tests.Notes;

public class FieldNoteTests
{
    [Fact]
    public async Task What_was_seen_is_compared_with_what_was_forecast_and_later_forecasts_say_it()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        var (address, forecast) = await ForecastAsync(client, MadeValley.Plan());
        Assert.Null(forecast["notes"]);
        var start = DateTimeOffset.Parse(forecast["windows"]![0]!["start"]!.GetValue<string>(), CultureInfo.InvariantCulture);

        foreach (var lateS in (double[])[40, 80])
            await NoteAsync(client, new JsonObject { ["forecast"] = address, ["firstLight"] = start.AddSeconds(lateS).ToString("O"), ["set"] = "whole", ["text"] = "Cold." });

        var notes = await client.SendJsonAsync(HttpMethod.Get, "/api/notes").JsonAsync();
        Assert.Equal(2, notes["notes"]!.AsArray().Count);
        Assert.Equal(60, notes["against"]!["firstLightS"]!["bias"]!.GetValue<double>(), 0.11);
        Assert.Equal(Math.Sqrt(800), notes["against"]!["firstLightS"]!["spread"]!.GetValue<double>(), 0.11);
        Assert.Null(notes["against"]!["lastLightS"]);
        Assert.Equal(2, notes["against"]!["sets"]!["fittingAndWhole"]!.GetValue<int>());

        var (later, said) = await ForecastAsync(client, MadeValley.Plan());
        Assert.NotEqual(address, later);
        Assert.Equal(60, said["notes"]!["lookout"]!["firstLightS"]!["bias"]!.GetValue<double>(), 0.11);
        var elsewhere = MadeValley.Plan();
        elsewhere["lookout"]!["latitudeDeg"] = 46.51;
        var (_, other) = await ForecastAsync(client, elsewhere);
        Assert.Null(other["notes"]!["lookout"]);
        Assert.Equal(2, other["notes"]!["everywhere"]!["notes"]!.GetValue<int>());
    }

    [Fact]
    public async Task Notes_are_kept_found_by_lookout_and_deleted()
    {
        await using var data = new DataOfATest();
        using var first = await data.StartAsync();
        var (address, _) = await ForecastAsync(first, MadeValley.Plan());
        var note = await NoteAsync(first, new JsonObject { ["forecast"] = address, ["set"] = "broken" });
        var (here, away) = ($"latitudeDeg={Text(note["latitudeDeg"]!)}&longitudeDeg={Text(note["longitudeDeg"]!)}", "latitudeDeg=1&longitudeDeg=2");

        using var second = await data.StartAsync();
        var id = note["id"]!.GetValue<string>();
        Assert.True(JsonNode.DeepEquals(note, await second.SendJsonAsync(HttpMethod.Get, $"/api/notes/{id}").JsonAsync()));
        Assert.Single((await second.SendJsonAsync(HttpMethod.Get, $"/api/notes?{here}").JsonAsync())["notes"]!.AsArray());
        Assert.Empty((await second.SendJsonAsync(HttpMethod.Get, $"/api/notes?{away}").JsonAsync())["notes"]!.AsArray());
        using var deleted = await second.SendJsonAsync(HttpMethod.Delete, $"/api/notes/{id}");
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
        await second.SendJsonAsync(HttpMethod.Get, $"/api/notes/{id}").ProblemAsync(HttpStatusCode.NotFound);

        static string Text(JsonNode number) => number.GetValue<double>().ToString("R", CultureInfo.InvariantCulture);
    }

    [Fact]
    public async Task All_faults_of_a_note_are_said_at_once()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        var note = JsonNode.Parse("""{ "forecast": "elsewhere", "window": 3, "firstLight": "dawn", "deckTopM": "high", "set": "fine", "colour": "red" }""")!;
        var faults = await client.SendJsonAsync(HttpMethod.Post, "/api/notes", note).FaultsAsync();
        Assert.Equal(["colour", "deckTopM", "firstLight", "forecast", "set", "window"], faults.Keys.Order(StringComparer.Ordinal));
        var (address, _) = await ForecastAsync(client, MadeValley.Plan());
        Assert.Equal(["firstLight"], (await client.SendJsonAsync(HttpMethod.Post, "/api/notes", new JsonObject { ["forecast"] = address }).FaultsAsync()).Keys);
        Assert.Equal(["latitudeDeg"], (await client.SendJsonAsync(HttpMethod.Get, "/api/notes?longitudeDeg=7").FaultsAsync()).Keys);
    }

    [Fact]
    public void Bias_is_the_mean_and_spread_the_sample_standard_deviation()
    {
        // By hand: 2, 4, 4, 4, 5, 5, 7, 9 have the mean 5, and the squares of their distances from it add up to 32.
        var deviation = Deviation.Of([2, 4, null, 4, 4, 5, 5, 7, 9])!;
        Assert.Equal((8, 5), (deviation.Count, deviation.Bias));
        Assert.Equal(Math.Sqrt(32.0 / 7), deviation.Spread!.Value, 1e-12);
        Assert.Null(Deviation.Of([3])!.Spread);
        Assert.Null(Deviation.Of([null]));
    }

    private static async Task<(string Address, JsonNode Forecast)> ForecastAsync(HttpClient client, JsonNode plan)
    {
        using var posted = await client.SendJsonAsync(HttpMethod.Post, "/api/forecasts", plan);
        var location = posted.Content.Headers.ContentLocation!.OriginalString;
        return (location[(location.LastIndexOf('/') + 1)..], JsonNode.Parse(await posted.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!);
    }

    private static async Task<JsonNode> NoteAsync(HttpClient client, JsonNode note) =>
        await client.SendJsonAsync(HttpMethod.Post, "/api/notes", note).JsonAsync(HttpStatusCode.Created);
}
