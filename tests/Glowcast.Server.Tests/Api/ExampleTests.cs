using System.Text;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Api;

/// <summary>Every example of the description is sent, and answered as the description says.</summary>
public class ExampleTests(Service service)
{
    private const string Id = "saddle-of-the-examples";

    // Of what exists only once it was asked for: its address, by the operation that makes it.
    private readonly Dictionary<string, string> made = [];

    [Fact]
    public async Task Every_example_is_answered_as_described()
    {
        var description = await service.GetAsync("/openapi/v1.json").JsonAsync();
        var operations = (
            from path in description["paths"]!.AsObject()
            from operation in path.Value!.AsObject()
            where !(path.Key == "/api/grids/{id}" && operation.Key == "delete") && !(path.Key == "/api/grids" && operation.Key == "post")
            orderby Order(path.Key, operation.Key), path.Key
            select (Path: path.Key, Method: new HttpMethod(operation.Key), Operation: operation.Value!)).ToList();

        foreach (var (path, method, operation) in operations)
        {
            using var response = await SendAsync(path, method, operation);
            var status = (int)response.StatusCode;
            Assert.True(status is >= 200 and < 300, $"{method} {path}: {status} {await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)}");
            Assert.True(operation["responses"]!.AsObject().ContainsKey($"{status}"), $"{method} {path} answers {status}, which is not described");
            if ((response.Content.Headers.ContentLocation ?? response.Headers.Location) is { } location) made[path] = location.OriginalString;
            if (path == "/api/seasons") await FollowAsync($"{made[path]}/events");
        }
        Assert.True(operations.Count > 25);
    }

    // What makes something comes before what shows it, and deleting last.
    private static int Order(string path, string method) => (path, method) switch
    {
        ("/api/notes", "post") => 2,
        (_, "put" or "post") => 1,
        (_, "delete") => 4,
        _ => 3,
    };

    private async Task<HttpResponseMessage> SendAsync(string path, HttpMethod method, JsonNode operation)
    {
        using var request = new HttpRequestMessage(method, new Uri(AddressOf(path) + QueryOf(operation), UriKind.Relative));
        foreach (var (type, form) in operation["requestBody"]?["content"]?.AsObject() ?? [])
        {
            var body = form!["example"]!.DeepClone();
            if (path == "/api/notes") body["forecast"] = made["/api/forecasts"].Split('/')[^1];
            request.Content = type == "multipart/form-data" ? FormOf(body) : new StringContent(type == "text/plain" ? body.GetValue<string>() : body.ToJsonString(), Encoding.UTF8, type);
        }
        return await service.Client.SendAsync(request, TestContext.Current.CancellationToken);
    }

    private static MultipartFormDataContent FormOf(JsonNode body)
    {
        var form = new MultipartFormDataContent();
        foreach (var (field, files) in body.AsObject())
            foreach (var (i, text) in files!.AsArray().Index()) form.Add(new StringContent(text!.GetValue<string>()), field, $"{i}.jpg");
        return form;
    }

    private string AddressOf(string path) => path switch
    {
        _ when path.StartsWith("/api/forecasts/{address}", StringComparison.Ordinal) => path.Replace("/api/forecasts/{address}", made["/api/forecasts"], StringComparison.Ordinal),
        _ when path.StartsWith("/api/jobs/{id}", StringComparison.Ordinal) => path.Replace("/api/jobs/{id}", made["/api/seasons"], StringComparison.Ordinal),
        "/api/notes/applied" => $"{path}?forecast={made["/api/forecasts"].Split('/')[^1]}",
        _ when path.StartsWith("/api/notes/{id}", StringComparison.Ordinal) => path.Replace("/api/notes/{id}", made["/api/notes"], StringComparison.Ordinal),
        _ when path.StartsWith("/api/grids/{id}", StringComparison.Ordinal) => path.Replace("{id}", MadeValley.GridId, StringComparison.Ordinal),
        _ => path.Replace("{id}", Id, StringComparison.Ordinal),
    };

    private static string QueryOf(JsonNode operation)
    {
        var examples = (operation["parameters"]?.AsArray() ?? []).Where(parameter => parameter!["in"]!.GetValue<string>() == "query" && parameter["example"] is not null)
            .Select(parameter => $"{parameter!["name"]}={Uri.EscapeDataString(parameter["example"]!.ToString())}").ToList();
        return examples.Count > 0 ? $"?{string.Join('&', examples)}" : "";
    }

    private async Task FollowAsync(string events)
    {
        using var response = await service.GetAsync(events);
        Assert.Contains("event: done", await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }
}
