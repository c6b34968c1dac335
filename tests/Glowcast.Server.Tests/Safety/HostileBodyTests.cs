using System.Net;
using System.Net.Sockets;
using System.Text;
using Glowcast.Server.Problems;
using Microsoft.Extensions.DependencyInjection;

namespace Glowcast.Server.Tests.Safety;

/// <summary>Bodies that no client sends that means well, over a bare connection.</summary>
public sealed class HostileBodyTests : IAsyncDisposable
{
    private readonly DataOfATest data = new();

    public ValueTask DisposeAsync() => data.DisposeAsync();

    [Theory]
    [InlineData("/api/grids?name=a.asc", "application/octet-stream")]
    [InlineData("/api/takes", "application/json")]
    [InlineData("/api/forecasts", "application/json")]
    public async Task A_piece_that_claims_to_be_longer_than_any_is_refused(string path, string type)
    {
        using var client = await data.StartAsync();
        using var connection = await ConnectAsync(client);
        await SendAsync(connection, $"POST {path} HTTP/1.1\r\nHost: localhost\r\nContent-Type: {type}\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\nFFFFFFFFFFFFFFFF\r\n{{}}\r\n");
        Assert.StartsWith("HTTP/1.1 400 ", await AnswerAsync(connection), StringComparison.Ordinal);
        Assert.Empty(data.HalfFiles);
    }

    [Fact]
    public async Task Connections_that_trickle_are_cut_off_and_keep_nobody_waiting()
    {
        using var client = await data.StartAsync(options => options with { SlownessBorne = TimeSpan.FromSeconds(2) });
        // More than may arrive at once.
        var trickling = await Task.WhenAll(Enumerable.Range(0, 24).Select(_ => ConnectAsync(client)));
        using var stop = new CancellationTokenSource();
        var tricklers = trickling.Select(connection => TrickleAsync(connection, stop.Token)).ToList();
        await Task.Delay(200, TestContext.Current.CancellationToken);

        await client.UploadAsync("slope.asc", MadeGrid.Ascii(1)).JsonAsync(HttpStatusCode.Created);

        await stop.CancelAsync();
        await Task.WhenAll(tricklers);
        foreach (var connection in trickling) connection.Dispose();
    }

    [Fact]
    public async Task A_body_that_takes_too_long_to_arrive_is_refused()
    {
        using var client = await data.StartAsync(options => options with { LongestArrival = TimeSpan.FromMilliseconds(300) });
        using var connection = await ConnectAsync(client);
        await SendAsync(connection, "POST /api/grids?name=a.asc HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/octet-stream\r\nContent-Length: 1000\r\nConnection: close\r\n\r\nncols");
        Assert.StartsWith("HTTP/1.1 408 ", await AnswerAsync(connection), StringComparison.Ordinal);
        Assert.Empty(data.HalfFiles);
    }

    [Fact]
    public async Task Of_many_hillshades_at_once_those_beyond_the_queue_are_told_to_come_again_and_health_answers()
    {
        using var client = await data.StartAsync();
        var asked = new List<Task<HttpResponseMessage>>();
        using (await data.Services.GetRequiredService<Queues>().Hillshades.TakeAsync(TestContext.Current.CancellationToken))
        {
            // 64 wait; the others are answered at once.
            asked.AddRange(Enumerable.Range(0, 70).Select(_ => client.SendJsonAsync(HttpMethod.Get, $"/api/grids/{MadeValley.GridId}/hillshade?pixels=20")));
            while (asked.Count(answer => answer.IsCompleted) < 6) await Task.Delay(10, TestContext.Current.CancellationToken);
            await client.SendJsonAsync(HttpMethod.Get, "/health").JsonAsync();
            Assert.All(asked.Where(answer => answer.IsCompleted), answer => Assert.Equal(HttpStatusCode.TooManyRequests, answer.Result.StatusCode));
        }
        foreach (var answer in await Task.WhenAll(asked)) answer.Dispose();
        Assert.Equal(64, asked.Count(answer => answer.Result.StatusCode == HttpStatusCode.OK));
    }

    private static async Task TrickleAsync(TcpClient connection, CancellationToken stop)
    {
        try
        {
            await SendAsync(connection, "POST /api/grids?name=a.asc HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/octet-stream\r\nContent-Length: 1000000\r\n\r\n");
            while (!stop.IsCancellationRequested)
            {
                await SendAsync(connection, new string(' ', 40));
                await Task.Delay(100, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
        catch (IOException)
        {
            // Cut off, as it should be.
        }
    }

    private static async Task<TcpClient> ConnectAsync(HttpClient client)
    {
        var connection = new TcpClient();
        await connection.ConnectAsync(IPAddress.Loopback, client.BaseAddress!.Port, TestContext.Current.CancellationToken);
        return connection;
    }

    private static Task SendAsync(TcpClient connection, string text) => connection.GetStream().WriteAsync(Encoding.ASCII.GetBytes(text), TestContext.Current.CancellationToken).AsTask();

    private static async Task<string> AnswerAsync(TcpClient connection)
    {
        using var reader = new StreamReader(connection.GetStream());
        return await reader.ReadLineAsync(TestContext.Current.CancellationToken) ?? "";
    }
}
