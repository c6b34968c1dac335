using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests;

/// <summary>Asks the service and reads its answers.</summary>
internal static class Answered
{
    public static async Task<HttpResponseMessage> SendJsonAsync(
        this HttpClient client, HttpMethod method, string path, JsonNode? body = null, params (string Name, string Value)[] headers)
    {
        using var request = new HttpRequestMessage(method, new Uri(path, UriKind.Relative));
        if (body is not null) request.Content = new StringContent(body.ToJsonString(), Encoding.UTF8, "application/json");
        foreach (var (name, value) in headers) request.Headers.TryAddWithoutValidation(name, value);
        return await client.SendAsync(request, TestContext.Current.CancellationToken);
    }

    public static async Task<HttpResponseMessage> UploadAsync(this HttpClient client, string name, byte[] file)
    {
        using var content = new ByteArrayContent(file);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        return await client.PostAsync(new Uri($"/api/grids?name={Uri.EscapeDataString(name)}", UriKind.Relative), content, TestContext.Current.CancellationToken);
    }

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
