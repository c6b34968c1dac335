using System.Net;
using System.Text.Json.Nodes;
using Glowcast.Server.Api;

namespace Glowcast.Server.Tests.Api;

/// <summary>Plans that name a sounding which the service keeps.</summary>
public class KeptSoundingTests(Service service)
{
    private const string Id = "morning-fog";

    [Fact]
    public async Task A_plan_may_name_a_kept_sounding_and_its_forecast_follows_the_text()
    {
        // Of its own, since an address also follows the field notes that others write.
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        await PutAsync(client, Examples.Sounding);
        var (first, answer) = await ForecastAsync(client);
        Assert.Equal("sounding", answer["cloud"]!["deckFrom"]!.GetValue<string>());
        // 0.2 °C at 900 m and 10 °C at 1200 m: 2 °C at 900 + 300 · 1.8/9.8.
        Assert.Equal(900 + (300 * 1.8 / 9.8), answer["cloud"]!["deckTopM"]!.GetValue<double>(), 1e-6);

        await PutAsync(client, Examples.Sounding.Replace("909,900,-1.5,-1.7", "909,900,-1.5,-2.5", StringComparison.Ordinal));
        var (second, changed) = await ForecastAsync(client);
        Assert.NotEqual(first, second);
        Assert.NotEqual(answer["cloud"]!["deckTopM"]!.GetValue<double>(), changed["cloud"]!["deckTopM"]!.GetValue<double>());

        await PutAsync(client, Examples.Sounding);
        Assert.Equal(first, (await ForecastAsync(client)).Address);
    }

    [Fact]
    public async Task A_sounding_that_is_not_kept_is_a_fault_of_the_plan()
    {
        var plan = PlanWith("never-kept");
        plan["grids"] = new JsonArray("elsewhere");
        Assert.Equal(["conditions.sounding", "grids"], (await service.PostPlanAsync(plan).FaultsAsync()).Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task A_plan_that_names_a_kept_sounding_can_be_kept_too()
    {
        await PutAsync(service.Client, Examples.Sounding);
        var body = new JsonObject { ["name"] = "Foggy", ["plan"] = PlanWith(Id) };
        using var kept = await service.SendAsync(HttpMethod.Put, "/api/plans/foggy", body);
        Assert.Equal(HttpStatusCode.Created, kept.StatusCode);
        body["plan"]!["conditions"]!["sounding"] = "never-kept";
        Assert.Equal(["plan.conditions.sounding"], (await service.SendAsync(HttpMethod.Put, "/api/plans/foggy", body).FaultsAsync()).Keys);
    }

    private static async Task PutAsync(HttpClient client, string text)
    {
        using var kept = await client.SendJsonAsync(HttpMethod.Put, $"/api/soundings/{Id}", new JsonObject { ["name"] = "Fog", ["sounding"] = text });
        Assert.True(kept.IsSuccessStatusCode);
    }

    private static async Task<(string Address, JsonNode Answer)> ForecastAsync(HttpClient client)
    {
        var asked = client.SendJsonAsync(HttpMethod.Post, "/api/forecasts", PlanWith(Id));
        var answer = await asked.JsonAsync();
        return ((await asked).Content.Headers.ContentLocation!.OriginalString, answer);
    }

    private static JsonObject PlanWith(string sounding)
    {
        var plan = MadeValley.Plan();
        plan["conditions"] = new JsonObject { ["sounding"] = sounding };
        return plan;
    }
}
