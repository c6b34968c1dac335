using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Tests;
using Microsoft.AspNetCore.Builder;

[assembly: AssemblyFixture(typeof(Service))]

namespace Glowcast.Server.Tests;

/// <summary>The service itself on a free port of this machine, with the made valley for grid and demo.</summary>
public sealed class Service : IAsyncLifetime
{
    private WebApplication? app;

    public HttpClient Client { get; } = new();

    public static async Task<WebApplication> StartAsync(ServerOptions options)
    {
        var app = ServerHost.Build(options with { Urls = "http://127.0.0.1:0" });
        await app.StartAsync(TestContext.Current.CancellationToken);
        return app;
    }

    /// <summary>A service of its own with the made valley, opening with a plan or with none.</summary>
    public static Task<WebApplication> StartWithAsync(JsonObject? plan) => StartAsync(new ServerOptions
    {
        Grids = new Dictionary<string, ElevationGrid> { [MadeValley.GridId] = MadeValley.Grid },
        DemoPlan = plan is null ? null : JsonSerializer.SerializeToElement(plan),
    });

    public async ValueTask InitializeAsync()
    {
        app = await StartWithAsync(MadeValley.Plan());
        Client.BaseAddress = new Uri(app.Urls.Single());
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        if (app is not null) await app.DisposeAsync();
    }

    public Task<HttpResponseMessage> PostPlanAsync(JsonNode plan, string query = "") => PostTextAsync(plan.ToJsonString(), query);

    public Task<HttpResponseMessage> PostTextAsync(string text, string query = "", string type = "application/json") => Client.PostAsync(
        new Uri($"/api/forecasts{query}", UriKind.Relative), new StringContent(text, Encoding.UTF8, type), TestContext.Current.CancellationToken);

    public Task<HttpResponseMessage> SendAsync(HttpMethod method, string path, JsonNode? body = null, params (string Name, string Value)[] headers) =>
        Client.SendJsonAsync(method, path, body, headers);

    public Task<HttpResponseMessage> UploadAsync(string name, byte[] file) => Client.UploadAsync(name, file);

    public Task<HttpResponseMessage> GetAsync(string path) => Client.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
}
