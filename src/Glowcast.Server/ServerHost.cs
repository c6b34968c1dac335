using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Answers;
using Glowcast.Server.Api;
using Glowcast.Server.Forecasts;
using Glowcast.Server.Grids;
using Glowcast.Server.Jobs;
using Glowcast.Server.Kept;
using Glowcast.Server.Notes;
using Glowcast.Server.Page;
using Glowcast.Server.Problems;
using Glowcast.Server.Safety;
using Glowcast.Server.Store;
using Glowcast.Server.Telemetry;
using Microsoft.AspNetCore.ResponseCompression;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using NodaTime;

namespace Glowcast.Server;

/// <summary>Puts the service together.</summary>
public static class ServerHost
{
    private const int MostBodyBytes = 64 * 1024;
    private const int ThreadsPerProcessor = 16;

    /// <summary>The service, ready to start. It reads no settings: all it knows is in its options, and in the data folder they name.</summary>
    /// <exception cref="BadInputException">An address that is none; a data folder that cannot be used.</exception>
    public static WebApplication Build(ServerOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory });
        LeaveThreadsForOthers();
        var listen = ListenAddresses.Read(options.Urls);
        builder.WebHost.UseKestrelCore().UseUrls(listen.Urls).ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = MostBodyBytes;
            kestrel.Limits.MaxRequestLineSize = LongAddresses.MostLineBytes;
            kestrel.Limits.MinRequestBodyDataRate = new MinDataRate(options.SlowestBytesPerSecond, options.SlownessBorne);
            kestrel.Limits.MinResponseDataRate = new MinDataRate(options.SlowestBytesPerSecond, options.SlownessBorne);
        });
        builder.Logging.AddLogs(options.LogsAsJson);
        builder.Services.AddSingleton(listen);
        builder.Services.AddHostedService<BoundAddresses>();
        AddServices(builder.Services, options);
        var app = builder.Build();
        app.Services.GetRequiredService<FolderCare>().Take();
        Use(app, listen, options);
        Map(app);
        return app;
    }

    // Forecasts keep as many threads as there are processors busy; without more at hand, small questions would wait until the pool grows.
    private static void LeaveThreadsForOthers()
    {
        ThreadPool.GetMinThreads(out var workers, out var ports);
        ThreadPool.SetMinThreads(Math.Max(workers, ThreadsPerProcessor * Environment.ProcessorCount), ports);
    }

    private static void AddServices(IServiceCollection services, ServerOptions options)
    {
        services.AddSingleton(options);
        services.AddSingleton<GridShelf>();
        services.AddSingleton<GridReception>();
        services.AddSingleton<Queues>();
        services.AddSingleton<KeptSoundings>();
        services.AddSingleton<PostedPlans>();
        services.AddSingleton<IHorizonStore, CachedHorizons>();
        services.AddSingleton(provider => new HorizonShelf(store: provider.GetRequiredService<IHorizonStore>()));
        services.AddSingleton<ForecastDesk>();
        services.AddSingleton<NoteBook>();
        services.AddJobs();
        services.AddStore(options);
        services.AddRoutingCore();
        services.AddProblems();
        services.AddResponseCompression(compression => compression.MimeTypes = [.. ResponseCompressionDefaults.MimeTypes, "application/problem+json", ChartBytes.MediaType]);
        services.ConfigureHttpJsonOptions(json => AnswerJson.Configure(json.SerializerOptions));
        services.AddDescription();
        services.AddTelemetry(options.Collector);
    }

    private static void Use(WebApplication app, ListenAddresses listen, ServerOptions options)
    {
        if (options.LogsAsJson) app.UseRequestLog();
        app.UseSafetyHeaders();
        app.UseExceptionHandler();
        app.UseStatusCodePages();
        app.UseLongAddresses();
        app.UseCallerGate(listen);
        if (!listen.IsThisMachineOnly) app.UseTokenGate(TokenOf(app.Services, options));
        app.UseResponseCompression();
        app.UsePage();
    }

    private static AccessToken TokenOf(IServiceProvider services, ServerOptions options) => AccessToken.OpenAsync(
        services.GetRequiredService<ITokens>(), services.GetRequiredService<IClock>(), options.RenewToken, options.ShowToken).GetAwaiter().GetResult();

    private static void Map(WebApplication app)
    {
        app.MapHealth();
        app.MapForecasts();
        app.MapCards();
        app.MapCharts();
        app.MapNotes();
        app.MapSeasons();
        app.MapJobs();
        app.MapSun();
        app.MapGrids();
        app.MapSoundings();
        app.MapHillshade();
        app.MapDocuments();
        app.MapTakes();
        app.MapDemo();
        app.MapOpenApi();
        app.MapReference();
    }
}
