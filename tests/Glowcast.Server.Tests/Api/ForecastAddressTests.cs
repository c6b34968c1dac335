using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Glowcast.Engine.Terrain;

namespace Glowcast.Server.Tests.Api;

public class ForecastAddressTests(Service service)
{
    [Fact]
    public async Task A_forecast_can_be_got_again_where_its_answer_says_and_is_not_sent_twice()
    {
        using var posted = await service.PostPlanAsync(MadeValley.Plan());
        var address = posted.Content.Headers.ContentLocation!.OriginalString;

        using var got = await service.GetAsync(address);
        Assert.Equal(await TextOf(posted), await TextOf(got));
        Assert.Contains(got.Headers.CacheControl!.Extensions, extension => extension.Name == "immutable");
        using var again = await service.SendAsync(HttpMethod.Get, address, null, ("If-None-Match", got.Headers.ETag!.ToString()));
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);

        using var pictured = await service.GetAsync($"{address}?pictures=true");
        Assert.NotEqual(got.Headers.ETag, pictured.Headers.ETag);
        Assert.NotNull(JsonNode.Parse(await TextOf(pictured))!["picture"]);
    }

    [Fact]
    public async Task The_address_follows_the_plan_and_not_its_spacing()
    {
        // Of its own, since an address also follows the field notes that others write.
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        var plan = MadeValley.Plan();
        var one = await AddressOf(client, plan.ToJsonString());
        Assert.Equal(one, await AddressOf(client, plan.ToJsonString(new() { WriteIndented = true })));
        plan["lens"]!["aperture"] = 8;
        Assert.NotEqual(one, await AddressOf(client, plan.ToJsonString()));
    }

    [Fact]
    public async Task The_address_follows_the_ground_and_not_the_name_that_plans_use_for_it()
    {
        await using var data = new DataOfATest();
        var lifted = new ElevationGrid(MadeValley.Grid.Posts, [.. Enumerable.Range(0, MadeValley.Grid.Posts.Rows).SelectMany(row => MadeValley.Grid.Row(row).ToArray()).Select(height => height + 1)], MadeValley.GridId);
        using var client = await data.StartAsync(options => options with { Grids = new Dictionary<string, ElevationGrid> { [MadeValley.GridId] = lifted } });
        using var posted = await client.SendJsonAsync(HttpMethod.Post, "/api/forecasts", MadeValley.Plan());
        Assert.NotEqual(await AddressOf(service.Client, MadeValley.Plan().ToJsonString()), posted.Content.Headers.ContentLocation!.OriginalString);
    }

    [Fact]
    public async Task What_was_worked_out_is_remembered_over_a_restart_while_there_is_room()
    {
        await using var data = new DataOfATest();
        using var first = await data.StartAsync();
        using var posted = await first.SendJsonAsync(HttpMethod.Post, "/api/forecasts", MadeValley.Plan());
        var address = posted.Content.Headers.ContentLocation!.OriginalString;

        using var second = await data.StartAsync();
        using var got = await second.SendJsonAsync(HttpMethod.Get, address);
        Assert.Equal(await TextOf(posted), await TextOf(got));
    }

    [Fact]
    public async Task What_is_not_remembered_is_a_problem_that_says_what_to_do()
    {
        var problem = await service.GetAsync($"/api/forecasts/{new string('0', 64)}").ProblemAsync(HttpStatusCode.NotFound);
        Assert.Contains("post its plan", problem["detail"]!.GetValue<string>(), StringComparison.Ordinal);
        await service.GetAsync("/api/forecasts/nothing/chart").ProblemAsync(HttpStatusCode.NotFound);
    }

    private static async Task<string> AddressOf(HttpClient client, string plan)
    {
        using var posted = await client.PostAsync(
            new Uri("/api/forecasts", UriKind.Relative), new StringContent(plan, Encoding.UTF8, "application/json"), TestContext.Current.CancellationToken);
        return posted.Content.Headers.ContentLocation!.OriginalString;
    }

    private static Task<string> TextOf(HttpResponseMessage response) => response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
}
