using System.Net;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests;

/// <summary>A service that is told to end.</summary>
public class EndingTests
{
    [Fact]
    public async Task It_first_answers_what_it_has_begun()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        var asked = client.SendJsonAsync(HttpMethod.Post, "/api/forecasts", MadeValley.Plan());
        // The upload goes the same way after it, so once that is answered the forecast has begun.
        await client.UploadAsync("slope.asc", MadeGrid.Ascii(1)).JsonAsync(HttpStatusCode.Created);
        await data.StopAsync();
        await asked.JsonAsync();
    }

    [Fact]
    public async Task It_lets_go_of_those_who_follow_a_job()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync(options => options with { JobsAtOnce = 0 });
        var season = new JsonObject { ["plan"] = MadeValley.Plan(), ["from"] = "2026-10-19", ["to"] = "2026-10-20" };
        using var accepted = await client.SendJsonAsync(HttpMethod.Post, "/api/seasons", season);
        using var followed = await client.GetAsync(
            new Uri($"{accepted.Headers.Location!.OriginalString}/events", UriKind.Relative), HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken);
        var told = followed.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);

        await data.StopAsync();

        Assert.Contains("event: queued", await told, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, followed.StatusCode);
    }
}
