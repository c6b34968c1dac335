using System.Collections;
using System.Diagnostics.CodeAnalysis;
using System.Net;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Server.Tests.Safety;

public class SafetyTests(Service service)
{
    [Theory]
    [InlineData("/")]
    [InlineData("/health")]
    [InlineData("/api/sun")]
    [InlineData("/nothing")]
    public async Task Every_answer_keeps_the_browser_to_this_service(string path)
    {
        using var response = await service.GetAsync(path);
        var policy = Assert.Single(response.Headers.GetValues("Content-Security-Policy"));
        Assert.Contains("default-src 'self'", policy, StringComparison.Ordinal);
        Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(response.Headers.GetValues("X-Content-Type-Options")));
        Assert.Equal("no-referrer", Assert.Single(response.Headers.GetValues("Referrer-Policy")));
        Assert.False(response.Headers.Contains("Server"));
        Assert.False(response.Headers.Contains("Access-Control-Allow-Origin"));
    }

    [Theory]
    [InlineData("localhost", HttpStatusCode.OK)]
    [InlineData("127.0.0.1:80", HttpStatusCode.OK)]
    [InlineData("elsewhere.example", HttpStatusCode.BadRequest)]
    [InlineData("127.0.0.1.elsewhere.example", HttpStatusCode.BadRequest)]
    public async Task Only_names_of_this_machine_are_answered(string host, HttpStatusCode expected)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri("/health", UriKind.Relative));
        request.Headers.Host = host;
        using var response = await service.Client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(expected, response.StatusCode);
    }

    [Theory]
    [InlineData("http://127.0.0.1:5127;http://elsewhere.example:5127")]
    [InlineData("https://127.0.0.1:5127")]
    [InlineData("127.0.0.1:5127")]
    [InlineData("http://127.0.0.1:5127/below")]
    [InlineData("")]
    public void Addresses_that_are_none_are_refused(string urls)
    {
        var refusal = Assert.Throws<BadInputException>(() => ServerHost.Build(new ServerOptions { Urls = urls }));
        Assert.Equal("urls", Assert.Single(refusal.Faults).Field);
    }

    [Fact]
    public async Task A_fault_of_ours_tells_nothing_of_the_inside()
    {
        await using var broken = await Service.StartAsync(new ServerOptions { Grids = new BrokenShelf() });
        using var client = new HttpClient { BaseAddress = new Uri(broken.Urls.Single()) };
        var problem = await client.GetAsync(new Uri("/api/grids/any", UriKind.Relative), TestContext.Current.CancellationToken)
            .ProblemAsync(HttpStatusCode.InternalServerError);
        Assert.Equal(["status", "title", "type"], problem.AsObject().Select(field => field.Key).Order(StringComparer.Ordinal));
        Assert.DoesNotContain(BrokenShelf.Secret, problem.ToJsonString(), StringComparison.Ordinal);
    }

    private sealed class BrokenShelf : IReadOnlyDictionary<string, ElevationGrid>
    {
        public const string Secret = "the key lies under the mat";

        public int Count => throw new InvalidOperationException(Secret);

        public IEnumerable<string> Keys => throw new InvalidOperationException(Secret);

        public IEnumerable<ElevationGrid> Values => throw new InvalidOperationException(Secret);

        public ElevationGrid this[string key] => throw new InvalidOperationException(Secret);

        public bool ContainsKey(string key) => throw new InvalidOperationException(Secret);

        public bool TryGetValue(string key, [MaybeNullWhen(false)] out ElevationGrid value) => throw new InvalidOperationException(Secret);

        public IEnumerator<KeyValuePair<string, ElevationGrid>> GetEnumerator() => throw new InvalidOperationException(Secret);

        IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
    }
}
