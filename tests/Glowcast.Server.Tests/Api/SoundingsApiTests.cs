using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Glowcast.Server.Api;

namespace Glowcast.Server.Tests.Api;

public class SoundingsApiTests(Service service)
{
    private const string Fog = Examples.Sounding;

    [Fact]
    public async Task A_posted_sounding_is_judged()
    {
        var answer = await PostAsync(Fog, "?lookoutHeightM=1500").JsonAsync();
        Assert.Equal("high", answer["likelihood"]!.GetValue<string>());
        Assert.Equal("fog", answer["decks"]![0]!["kind"]!.GetValue<string>());
        Assert.Equal("above", answer["lookout"]!["verdict"]!.GetValue<string>());
        Assert.NotEmpty(answer["reasons"]!.AsArray());
    }

    [Fact]
    public async Task What_is_no_sounding_is_a_problem_of_the_field_sounding()
    {
        Assert.Equal(["sounding"], (await PostAsync("a letter").FaultsAsync()).Keys);
    }

    [Fact]
    public async Task Faults_of_the_query_are_said_together()
    {
        var faults = await PostAsync(Fog, "?lookoutHeightM=9999&latitudeDeg=91&at=noon&colour=red").FaultsAsync();
        Assert.Equal(["at", "colour", "latitudeDeg", "longitudeDeg", "lookoutHeightM"], faults.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task A_body_beyond_a_megabyte_is_not_read()
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri("/api/soundings", UriKind.Relative)) { Content = Text(new string('x', 1_000_001)) };
        // Asks before it sends, since the service hangs up on a body that it refuses.
        request.Headers.ExpectContinue = true;
        await service.Client.SendAsync(request, TestContext.Current.CancellationToken).ProblemAsync(HttpStatusCode.RequestEntityTooLarge);
    }

    [Fact]
    public async Task A_flight_at_full_resolution_may_be_posted()
    {
        // Larger than a plan may be.
        var flight = Fog + "\n" + string.Join('\n', Enumerable.Range(1, 4000).Select(i => $"{FormattableString.Invariant($"{700 - (0.1 * i):0.0}")},{3020 + (1.55 * i):0.0},{-5 - (0.007 * i):0.000},-40,240,18"));
        Assert.True(flight.Length > 64 * 1024);
        Assert.Equal(HttpStatusCode.OK, (await PostAsync(flight)).StatusCode);
    }

    [Fact]
    public async Task A_plan_may_hold_the_text_of_a_sounding()
    {
        var plan = MadeValley.Plan();
        plan["conditions"] = new JsonObject { ["sounding"] = Fog };
        var cloud = (await service.PostPlanAsync(plan).JsonAsync())["cloud"]!;
        Assert.Equal("sounding", cloud["deckFrom"]!.GetValue<string>());
        // 0.2 °C at 900 m and 10 °C at 1200 m: 2 °C at 900 + 300 · 1.8/9.8.
        Assert.Equal(900 + (300 * 1.8 / 9.8), cloud["deckTopM"]!.GetValue<double>(), 1e-6);
    }

    private Task<HttpResponseMessage> PostAsync(string text, string query = "") => service.Client.PostAsync(
        new Uri($"/api/soundings{query}", UriKind.Relative), Text(text), TestContext.Current.CancellationToken);

    private static StringContent Text(string text) => new(text, Encoding.UTF8, "text/plain");
}
