using System.Net;
using System.Text;

namespace Glowcast.Server.Tests.Safety;

public sealed class TokenTests : IAsyncDisposable
{
    private const string Everywhere = "http://0.0.0.0:0";

    private readonly List<string> shown = [];
    private readonly DataOfATest data = new();

    public ValueTask DisposeAsync() => data.DisposeAsync();

    [Fact]
    public async Task Beyond_this_machine_everything_but_health_asks_for_the_token()
    {
        using var client = await StartAsync();
        foreach (var path in (string[])["/", "/api/grids", "/openapi/v1.json", "/api/nothing"])
        {
            using var response = await client.SendJsonAsync(HttpMethod.Get, path);
            Assert.Equal(HttpStatusCode.Unauthorized, response.StatusCode);
            Assert.Equal(["Bearer", "Basic"], response.Headers.WwwAuthenticate.Select(challenge => challenge.Scheme));
        }
        await client.SendJsonAsync(HttpMethod.Put, "/api/lookouts/saddle", new System.Text.Json.Nodes.JsonObject()).ProblemAsync(HttpStatusCode.Unauthorized);
        await client.SendJsonAsync(HttpMethod.Get, "/health").JsonAsync();
    }

    [Theory]
    [InlineData("Bearer {0}", HttpStatusCode.OK)]
    [InlineData("bearer {0}", HttpStatusCode.OK)]
    [InlineData("Basic {1}", HttpStatusCode.OK)]
    [InlineData("Basic {2}", HttpStatusCode.OK)]
    [InlineData("Basic {3}", HttpStatusCode.OK)]
    [InlineData("Basic {4}", HttpStatusCode.Unauthorized)]
    [InlineData("Basic {5}", HttpStatusCode.Unauthorized)]
    [InlineData("Bearer {0}x", HttpStatusCode.Unauthorized)]
    [InlineData("Bearer", HttpStatusCode.Unauthorized)]
    [InlineData("Basic {0}", HttpStatusCode.Unauthorized)]
    [InlineData("Digest {0}", HttpStatusCode.Unauthorized)]
    public async Task The_token_opens_as_bearer_token_and_as_password(string header, HttpStatusCode expected)
    {
        using var client = await StartAsync();
        var token = Assert.Single(shown);
        string[] credentials = [$"anybody:{token}", $":{token}", token, $"{token}:anything", $"anybody:{token}:more"];
        using var response = await client.SendJsonAsync(
            HttpMethod.Get, "/api/grids", null, ("Authorization", string.Format(System.Globalization.CultureInfo.InvariantCulture, header, [token, .. credentials.Select(pair => Convert.ToBase64String(Encoding.UTF8.GetBytes(pair)))])));
        Assert.Equal(expected, response.StatusCode);
    }

    [Fact]
    public async Task It_is_made_once_shown_once_and_kept_as_a_hash()
    {
        using (await StartAsync())
        using (await StartAsync())
        {
        }
        var token = Assert.Single(shown);
        await data.StopAsync();
        foreach (var file in Directory.EnumerateFiles(data.Folder, "*", SearchOption.AllDirectories))
            Assert.Equal(-1, File.ReadAllBytes(file).AsSpan().IndexOf(Encoding.ASCII.GetBytes(token)));

        using var renewed = await StartAsync(renew: true);
        Assert.Equal(2, shown.Count);
        using var old = await renewed.SendJsonAsync(HttpMethod.Get, "/api/grids", null, ("Authorization", $"Bearer {token}"));
        Assert.Equal(HttpStatusCode.Unauthorized, old.StatusCode);
    }

    [Fact]
    public async Task On_this_machine_there_is_no_token()
    {
        using var client = await data.StartAsync(options => options with { ShowToken = shown.Add });
        await client.SendJsonAsync(HttpMethod.Get, "/api/grids").JsonAsync();
        Assert.Empty(shown);
    }

    private async Task<HttpClient> StartAsync(bool renew = false)
    {
        var client = await data.StartAsync(options => options with { Urls = Everywhere, ShowToken = shown.Add, RenewToken = renew });
        client.BaseAddress = new Uri($"http://127.0.0.1:{client.BaseAddress!.Port}");
        return client;
    }
}
