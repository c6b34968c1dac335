using System.Globalization;
using System.Text.Json.Nodes;
using Glowcast.Engine.Take;
using Glowcast.Engine.Tests.Take;

namespace Glowcast.Server.Tests.Notes;

public class TakeLearnedTests
{
    private const double LateS = 40;
    private const double StepS = 4.02;

    [Fact]
    public async Task A_take_says_how_far_the_forecast_was_off_is_kept_when_asked_and_moves_a_forecast_when_asked()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        var (address, forecast) = await ForecastAsync(client);
        var window = forecast["windows"]![0]!;
        Assert.Equal("ridgeLit", window["startCause"]!.GetValue<string>());
        var take = TakeOf(At(window["start"]!).AddSeconds(LateS));
        take["forecast"] = address;

        var compared = await client.SendJsonAsync(HttpMethod.Post, "/api/takes", take).JsonAsync();
        var seen = Assert.Single(compared["compared"]!["lightSeen"]!.AsArray())!;
        Assert.Equal("firstLight", seen["change"]!.GetValue<string>());
        Assert.Equal(LateS, seen["lateS"]!.GetValue<double>(), StepS);
        // The posted frames have no pictures, so that nothing but their joins is left to be said.
        Assert.Contains("joins were not looked at", Assert.Single(compared["cautions"]!.AsArray())!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Null(compared["note"]);
        Assert.Empty((await client.SendJsonAsync(HttpMethod.Get, "/api/notes").JsonAsync())["notes"]!.AsArray());

        take["keep"] = true;
        var kept = await client.SendJsonAsync(HttpMethod.Post, "/api/takes", take).JsonAsync();
        var note = await client.SendJsonAsync(HttpMethod.Get, $"/api/notes/{kept["note"]!.GetValue<string>()}").JsonAsync();
        Assert.Equal(seen["at"]!.GetValue<string>(), note["seen"]!["firstLight"]!.GetValue<string>());
        Assert.Equal(window["start"]!.GetValue<string>(), note["expected"]!["firstLight"]!.GetValue<string>());

        var (later, said) = await ForecastAsync(client);
        var bias = said["notes"]!["lookout"]!["firstLightS"]!["bias"]!.GetValue<double>();
        Assert.Equal(seen["lateS"]!.GetValue<double>(), bias, 0.11);
        Assert.Equal(window["start"]!.GetValue<string>(), said["windows"]![0]!["start"]!.GetValue<string>());

        var applied = await client.SendJsonAsync(HttpMethod.Get, $"/api/notes/applied?forecast={later}").JsonAsync();
        Assert.Equal((1, bias, false), (applied["firstLight"]!["notes"]!.GetValue<int>(), applied["firstLight"]!["movedByS"]!.GetValue<double>(), applied["firstLight"]!["isSure"]!.GetValue<bool>()));
        Assert.Equal(bias, (At(applied["windows"]![0]!["movedStart"]!) - At(window["start"]!)).TotalSeconds, 0.11);
        Assert.Equal(window["end"]!.GetValue<string>(), applied["windows"]![0]!["movedEnd"]!.GetValue<string>());
    }

    [Fact]
    public async Task A_take_of_another_day_is_told_and_gives_nothing_to_keep()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        var (address, forecast) = await ForecastAsync(client);
        var take = TakeOf(At(forecast["windows"]![0]!["start"]!).AddDays(2));
        (take["forecast"], take["keep"]) = (address, true);
        var answer = await client.SendJsonAsync(HttpMethod.Post, "/api/takes", take).JsonAsync();
        Assert.Contains(answer["cautions"]!.AsArray(), caution => caution!.GetValue<string>().StartsWith("No set of the take was shot on 2026-10-20, the day of the forecast; the first was on 2026-10-22.", StringComparison.Ordinal));
        Assert.Null(answer["note"]);
    }

    [Fact]
    public async Task What_a_comparison_lacks_is_said_by_field()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        var take = TakeOf(new DateTimeOffset(2026, 10, 20, 6, 0, 0, TimeSpan.Zero));
        (take["forecast"], take["clockErrorS"], take["knownFrame"]) = ("elsewhere", 3, new JsonObject { ["name"] = "gone.jpg", ["shotAt"] = "dawn" });
        Assert.Equal(["clockErrorS", "forecast", "knownFrame.name", "knownFrame.shotAt"], (await client.SendJsonAsync(HttpMethod.Post, "/api/takes", take).FaultsAsync()).Keys.Order(StringComparer.Ordinal));
        Assert.Equal(["keep"], (await client.SendJsonAsync(HttpMethod.Post, "/api/takes", new JsonObject { ["frames"] = new JsonArray(), ["keep"] = true }).FaultsAsync()).Keys);
        Assert.Equal(["forecast"], (await client.SendJsonAsync(HttpMethod.Get, "/api/notes/applied").FaultsAsync()).Keys);
    }

    private static DateTimeOffset At(JsonNode moment) => DateTimeOffset.Parse(moment.GetValue<string>(), CultureInfo.InvariantCulture);

    private static async Task<(string Address, JsonNode Forecast)> ForecastAsync(HttpClient client)
    {
        using var posted = await client.SendJsonAsync(HttpMethod.Post, "/api/forecasts", MadeValley.Plan());
        var location = posted.Content.Headers.ContentLocation!.OriginalString;
        return (location[(location.LastIndexOf('/') + 1)..], JsonNode.Parse(await posted.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!);
    }

    /// <summary>A row of twelve frames, half-way through which two and a half stops of light come.</summary>
    private static JsonObject TakeOf(DateTimeOffset light)
    {
        var panorama = new MadePanorama(new Random(5));
        return new JsonObject
        {
            ["frames"] = new JsonArray([.. Enumerable.Range(0, 12).Select(i =>
            {
                var glance = panorama.Glance(i * 0.6, 0, i < 6 ? -1 : 1.5);
                return new JsonObject
                {
                    ["name"] = $"{i:00}.jpg",
                    ["taken"] = light.AddSeconds((i - 5.5) * StepS).UtcDateTime.AddHours(2).ToString("yyyy-MM-dd'T'HH:mm:ss.fff", CultureInfo.InvariantCulture),
                    ["offsetFromUtc"] = "+02:00",
                    ["exposureS"] = 0.02,
                    ["glance"] = new JsonArray([.. Enumerable.Range(0, Glance.Rows * Glance.Columns).Select(part => (JsonNode)glance[part / Glance.Columns, part % Glance.Columns])]),
                };
            })]),
        };
    }
}
