using System.Net;
using System.Text;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Api;

/// <summary>What asks for more than the service gives.</summary>
public class BoundsTests
{
    [Fact]
    public async Task A_forecast_that_takes_too_long_is_ended_and_said()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync(options => options with { LongestForecast = TimeSpan.FromMilliseconds(1) });
        var problem = await client.SendJsonAsync(HttpMethod.Post, "/api/forecasts", MadeValley.Plan()).ProblemAsync(HttpStatusCode.UnprocessableEntity);
        Assert.Contains("longer than", problem["detail"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Grids_too_large_together_are_refused()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync(options => options with { MostPosts = 1_000_000 });
        await client.SendJsonAsync(HttpMethod.Post, "/api/forecasts", MadeValley.Plan()).ProblemAsync(HttpStatusCode.UnprocessableEntity);
    }

    [Fact]
    public async Task Small_grids_far_apart_are_not_joined()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync(options => options with { MostPosts = 1_000_000 });
        var plan = MadeValley.Plan();
        plan["grids"] = new JsonArray(await UploadedAsync(0), await UploadedAsync(2));
        var faults = await client.SendJsonAsync(HttpMethod.Post, "/api/forecasts", plan).FaultsAsync();
        Assert.Contains("at most 1000000 can be held", faults["grids"], StringComparison.Ordinal);

        async Task<string> UploadedAsync(int degreesAway)
        {
            var text = Encoding.ASCII.GetString(MadeGrid.Ascii(1)).Replace("xllcenter 7\nyllcenter 46", $"xllcenter {7 + degreesAway}\nyllcenter {46 + degreesAway}", StringComparison.Ordinal);
            return (await client.UploadAsync("slope.asc", Encoding.ASCII.GetBytes(text)).JsonAsync(HttpStatusCode.Created))["id"]!.GetValue<string>();
        }
    }

    [Fact]
    public async Task When_too_many_wait_the_next_is_told_to_come_again()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync(options => options with { MostWaitingForecasts = 0 });
        var asked = Enumerable.Range(1, 4).Select(day =>
        {
            var plan = MadeValley.Plan();
            plan["date"] = $"2026-10-0{day}";
            return client.SendJsonAsync(HttpMethod.Post, "/api/forecasts", plan);
        });
        var answers = await Task.WhenAll(asked);
        Assert.Contains(answers, answer => answer.StatusCode == HttpStatusCode.OK);
        var busy = Assert.Single(answers.Where(answer => answer.StatusCode == HttpStatusCode.TooManyRequests).Take(1));
        Assert.NotNull(busy.Headers.RetryAfter);
        Assert.All(answers, answer => Assert.True(answer.StatusCode is HttpStatusCode.OK or HttpStatusCode.TooManyRequests));
        foreach (var answer in answers) answer.Dispose();
    }

    [Fact]
    public async Task Forecasts_are_remembered_only_while_there_is_room()
    {
        await using var data = new DataOfATest();
        using var first = await data.StartAsync(options => options with { MostCachedBytes = 100 });
        using var posted = await first.SendJsonAsync(HttpMethod.Post, "/api/forecasts", MadeValley.Plan());
        using var second = await data.StartAsync();
        await second.SendJsonAsync(HttpMethod.Get, posted.Content.Headers.ContentLocation!.OriginalString).ProblemAsync(HttpStatusCode.NotFound);
    }
}
