using System.Net;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests;

/// <summary>Reads answers of the service.</summary>
internal static class Answered
{
    public static async Task<JsonNode> JsonAsync(this Task<HttpResponseMessage> sent, HttpStatusCode expected = HttpStatusCode.OK)
    {
        var response = await sent;
        var text = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(response.StatusCode == expected, $"{response.StatusCode}: {text}");
        return JsonNode.Parse(text)!;
    }

    /// <summary>The faults of a problem by RFC 9457, field by field.</summary>
    public static async Task<Dictionary<string, string>> FaultsAsync(this Task<HttpResponseMessage> sent)
    {
        var problem = await sent.ProblemAsync(HttpStatusCode.BadRequest);
        return problem["errors"]!.AsObject().ToDictionary(error => error.Key, error => string.Join(" ", error.Value!.AsArray().Select(text => text!.GetValue<string>())));
    }

    public static async Task<JsonNode> ProblemAsync(this Task<HttpResponseMessage> sent, HttpStatusCode expected)
    {
        var response = await sent;
        var problem = await sent.JsonAsync(expected);
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType!.MediaType);
        Assert.Equal((int)expected, problem["status"]!.GetValue<int>());
        Assert.NotEmpty(problem["title"]!.GetValue<string>());
        return problem;
    }
}
