using System.Net;
using System.Net.Http.Headers;
using System.Net.ServerSentEvents;
using System.Text;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Jobs;

public sealed class JobTests : IAsyncDisposable
{
    private readonly DataOfATest data = new();

    public ValueTask DisposeAsync() => data.DisposeAsync();

    [Fact]
    public async Task A_season_is_worked_out_as_a_job_that_tells_how_far_it_is()
    {
        using var client = await data.StartAsync();
        var job = await SeasonAsync(client, "2026-10-19", "2026-10-22");

        var events = await EventsAsync(client, job);

        Assert.Equal("done", events[^1].State);
        Assert.All(events.SkipLast(1), told => Assert.True(told.State is "queued" or "running"));
        Assert.Equal(events.Select(told => told.Share).Order(), events.Select(told => told.Share));
        var answer = await client.SendJsonAsync(HttpMethod.Get, $"{job}/result").JsonAsync();
        Assert.Equal(["2026-10-19", "2026-10-20", "2026-10-21", "2026-10-22"], answer["days"]!.AsArray().Select(day => day!["date"]!.GetValue<string>()).Order(StringComparer.Ordinal));
        Assert.Contains(job, (await client.SendJsonAsync(HttpMethod.Get, "/api/jobs").JsonAsync()).AsArray().Select(listed => $"/api/jobs/{listed!["id"]!.GetValue<string>()}"));

        using var forgotten = await client.SendJsonAsync(HttpMethod.Delete, job);
        Assert.Equal(HttpStatusCode.NoContent, forgotten.StatusCode);
        await client.SendJsonAsync(HttpMethod.Get, job).ProblemAsync(HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task A_job_that_is_being_done_can_be_cancelled_and_one_that_was_interrupted_waits_again()
    {
        using var client = await data.StartAsync();
        var long1 = await SeasonAsync(client, "2026-01-01", "2030-12-31");
        var long2 = await SeasonAsync(client, "2026-01-01", "2030-12-31");
        await UntilAsync(client, long1, "running");
        await client.SendJsonAsync(HttpMethod.Get, $"{long1}/result").ProblemAsync(HttpStatusCode.Conflict);

        using var cancelled = await client.SendJsonAsync(HttpMethod.Delete, long1);
        Assert.Equal(HttpStatusCode.NoContent, cancelled.StatusCode);
        Assert.Equal("cancelled", (await EventsAsync(client, long1))[^1].State);

        await UntilAsync(client, long2, "running");
        using var idle = await data.StartAsync(options => options with { JobsAtOnce = 0 });
        Assert.Equal("queued", (await idle.SendJsonAsync(HttpMethod.Get, long2).JsonAsync())["state"]!.GetValue<string>());
    }

    [Fact]
    public async Task A_grid_can_be_read_in_a_job_also_after_a_restart()
    {
        using var idle = await data.StartAsync(options => options with { JobsAtOnce = 0 });
        var (good, bad) = (await ImportAsync(idle, MadeGrid.Ascii(1)), await ImportAsync(idle, Encoding.ASCII.GetBytes("ncols none")));
        var unwanted = await ImportAsync(idle, MadeGrid.Ascii(2));
        using var dropped = await idle.SendJsonAsync(HttpMethod.Delete, unwanted);
        Assert.Equal(2, data.HalfFiles.Count());

        using var client = await data.StartAsync();

        Assert.Equal("done", (await EventsAsync(client, good))[^1].State);
        var entry = await client.SendJsonAsync(HttpMethod.Get, $"{good}/result").JsonAsync();
        Assert.True(JsonNode.DeepEquals(entry["grid"], await client.SendJsonAsync(HttpMethod.Get, $"/api/grids/{entry["id"]}").JsonAsync()));
        Assert.Equal("failed", (await EventsAsync(client, bad))[^1].State);
        var problem = (await client.SendJsonAsync(HttpMethod.Get, bad).JsonAsync())["problem"]!;
        Assert.Equal(["file"], problem["errors"]!.AsObject().Select(error => error.Key));
        Assert.Empty(data.HalfFiles);
    }

    [Fact]
    public async Task No_more_jobs_wait_than_may()
    {
        using var client = await data.StartAsync(options => options with { JobsAtOnce = 0, MostWaitingJobs = 1 });
        await SeasonAsync(client, "2026-10-19", "2026-10-22");
        await client.SendJsonAsync(HttpMethod.Post, "/api/seasons", Season("2026-10-19", "2026-10-22")).ProblemAsync(HttpStatusCode.TooManyRequests);
    }

    [Fact]
    public async Task All_faults_of_a_season_are_said_at_once()
    {
        using var client = await data.StartAsync();
        var season = Season("2026-10-19", "2036-10-22");
        season["plan"]!["lookout"]!["latitudeDeg"] = 91;
        season["plan"]!["grids"] = new JsonArray("elsewhere");
        season["until"] = 3;
        var faults = await client.SendJsonAsync(HttpMethod.Post, "/api/seasons", season).FaultsAsync();
        Assert.Equal(["plan.grids", "plan.lookout.latitudeDeg", "to", "until"], faults.Keys.Order(StringComparer.Ordinal));
        Assert.Equal(["from", "plan", "to"], (await client.SendJsonAsync(HttpMethod.Post, "/api/seasons", new JsonObject()).FaultsAsync()).Keys.Order(StringComparer.Ordinal));
    }

    private static JsonObject Season(string from, string to) => new() { ["plan"] = MadeValley.Plan(), ["from"] = from, ["to"] = to };

    private static async Task<string> SeasonAsync(HttpClient client, string from, string to)
    {
        using var response = await client.SendJsonAsync(HttpMethod.Post, "/api/seasons", Season(from, to));
        Assert.Equal(HttpStatusCode.Accepted, response.StatusCode);
        return response.Headers.Location!.OriginalString;
    }

    private static async Task<string> ImportAsync(HttpClient client, byte[] file)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri("/api/grids?name=slope.asc", UriKind.Relative)) { Content = new ByteArrayContent(file) };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        request.Headers.Add("Prefer", "respond-async");
        using var response = await client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Accepted, response.StatusCode);
        return response.Headers.Location!.OriginalString;
    }

    private static async Task UntilAsync(HttpClient client, string job, string state)
    {
        while ((await client.SendJsonAsync(HttpMethod.Get, job).JsonAsync())["state"]!.GetValue<string>() != state)
            await Task.Delay(20, TestContext.Current.CancellationToken);
    }

    private static async Task<List<(string State, double Share)>> EventsAsync(HttpClient client, string job)
    {
        await using var stream = await client.GetStreamAsync(new Uri($"{job}/events", UriKind.Relative), TestContext.Current.CancellationToken);
        var events = new List<(string State, double Share)>();
        await foreach (var told in SseParser.Create(stream).EnumerateAsync(TestContext.Current.CancellationToken))
        {
            var answer = JsonNode.Parse(told.Data)!;
            Assert.Equal(told.EventType, answer["state"]!.GetValue<string>());
            events.Add((told.EventType, answer["share"]!.GetValue<double>()));
        }
        return events;
    }
}
