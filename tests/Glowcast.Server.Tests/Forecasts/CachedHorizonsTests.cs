using System.Text.Json.Nodes;
using Glowcast.Engine.Terrain;
using Microsoft.Extensions.DependencyInjection;

namespace Glowcast.Server.Tests.Forecasts;

public class CachedHorizonsTests
{
    [Fact]
    public async Task After_a_restart_other_days_of_a_lookout_need_no_new_horizons()
    {
        await using var data = new DataOfATest();
        using (var first = await data.StartAsync()) await first.SendJsonAsync(HttpMethod.Post, "/api/forecasts", MadeValley.Plan()).JsonAsync();
        Assert.Equal(1, WorkedOut(data));

        using var second = await data.StartAsync();
        var plan = MadeValley.Plan();
        plan["date"] = "2026-10-21";
        await second.SendJsonAsync(HttpMethod.Post, "/api/forecasts", plan).JsonAsync();
        Assert.Equal(0, WorkedOut(data));

        using var third = await data.StartAsync();
        var season = new JsonObject { ["plan"] = plan, ["from"] = "2026-10-20", ["to"] = "2026-10-21" };
        using var accepted = await third.SendJsonAsync(HttpMethod.Post, "/api/seasons", season);
        Assert.Contains("event: done", await third.GetStringAsync(new Uri($"{accepted.Headers.Location}/events", UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal(0, WorkedOut(data));
    }

    private static int WorkedOut(DataOfATest data) => data.Services.GetRequiredService<HorizonShelf>().WorkedOut;
}
