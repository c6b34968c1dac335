using Glowcast.Engine.Terrain;
using Microsoft.AspNetCore.Builder;

namespace Glowcast.Server.Tests;

/// <summary>A data folder of its own for one test, and services that are started on it one after another.</summary>
internal sealed class DataOfATest : IAsyncDisposable
{
    private WebApplication? app;

    public string Folder { get; } = Directory.CreateTempSubdirectory("glowcast-test-").FullName;

    /// <summary>Of the service that runs.</summary>
    public IServiceProvider Services => app!.Services;

    public bool IsStopped => app is null;

    public IEnumerable<string> GridFiles => Directory.EnumerateFiles(Path.Combine(Folder, "grids"));

    public IEnumerable<string> HalfFiles => Directory.EnumerateFiles(Path.Combine(Folder, "incoming"));

    /// <summary>Ends the service that runs, and starts another on the same folder.</summary>
    public async Task<HttpClient> StartAsync(Func<ServerOptions, ServerOptions>? change = null)
    {
        await StopAsync();
        var options = new ServerOptions { Urls = "http://127.0.0.1:0", DataFolder = Folder, LongestForecast = TimeSpan.FromHours(1), Grids = new Dictionary<string, ElevationGrid> { [MadeValley.GridId] = MadeValley.Grid } };
        app = ServerHost.Build(change?.Invoke(options) ?? options);
        await app.StartAsync(TestContext.Current.CancellationToken);
        return new HttpClient { BaseAddress = new Uri(app.Urls.Single()), Timeout = Timeout.InfiniteTimeSpan };
    }

    public async Task StopAsync()
    {
        if (app is null) return;
        await app.StopAsync(TestContext.Current.CancellationToken);
        await app.DisposeAsync();
        app = null;
    }

    public async ValueTask DisposeAsync()
    {
        await StopAsync();
        Directory.Delete(Folder, recursive: true);
    }
}
