using System.Net;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Api;

/// <summary>What the page asks before it knows anything: grids, the demo, health.</summary>
public class GridApiTests(Service service)
{
    [Fact]
    public async Task Grids_are_listed_and_described()
    {
        var grids = (await service.GetAsync("/api/grids").JsonAsync()).AsArray();
        var entry = Assert.Single(grids, grid => grid!["id"]!.GetValue<string>() == MadeValley.GridId)!;
        var grid = await service.GetAsync($"/api/grids/{MadeValley.GridId}").JsonAsync();
        Assert.True(JsonNode.DeepEquals(entry["grid"], grid));
        Assert.Equal(46, grid["southDeg"]!.GetValue<double>(), 1e-9);
        Assert.Equal(500, grid["lowestM"]!.GetValue<double>());
        Assert.Equal(0, grid["holes"]!.GetValue<int>());
    }

    [Fact]
    public async Task What_is_not_there_is_a_problem_that_says_so()
    {
        var problem = await service.GetAsync("/api/grids/elsewhere.hgt").ProblemAsync(HttpStatusCode.NotFound);
        Assert.Contains("elsewhere.hgt", problem["detail"]!.GetValue<string>(), StringComparison.Ordinal);
        await service.GetAsync("/api/nothing").ProblemAsync(HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task The_demo_is_a_plan_as_it_was_given_and_can_be_missing()
    {
        Assert.True(JsonNode.DeepEquals(MadeValley.Plan(), await service.GetAsync("/api/demo").JsonAsync()));

        await using var bare = await Service.StartAsync(new ServerOptions());
        using var client = new HttpClient { BaseAddress = new Uri(bare.Urls.Single()) };
        await client.GetAsync(new Uri("/api/demo", UriKind.Relative), TestContext.Current.CancellationToken).ProblemAsync(HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Health() => Assert.Equal("""{"status":"ok"}""", (await service.GetAsync("/health").JsonAsync()).ToJsonString());
}
