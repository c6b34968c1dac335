using Glowcast.Engine.Measures;
using Glowcast.Server.Answers;
using Glowcast.Server.Api;
using Glowcast.Server.Forecasts;
using Glowcast.Server.Page;
using Glowcast.Server.Problems;
using Glowcast.Server.Safety;
using Microsoft.AspNetCore.ResponseCompression;

namespace Glowcast.Server;

/// <summary>Puts the service together.</summary>
public static class ServerHost
{
    private const int MostBodyBytes = 64 * 1024;

    /// <summary>The service, ready to start. It reads no settings and no files: all it knows is in its options.</summary>
    /// <exception cref="BadInputException">An address that is none, or not of this machine.</exception>
    public static WebApplication Build(ServerOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.UseKestrelCore().UseUrls(Loopback.Addresses(options.Urls)).ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = MostBodyBytes;
        });
        // Standard output belongs to whoever starts the service.
        builder.Logging.SetMinimumLevel(LogLevel.Warning).AddSimpleConsole()
            .Services.Configure<Microsoft.Extensions.Logging.Console.ConsoleLoggerOptions>(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
        AddServices(builder.Services, options);
        var app = builder.Build();
        Use(app);
        Map(app);
        return app;
    }

    private static void AddServices(IServiceCollection services, ServerOptions options)
    {
        services.AddSingleton(options);
        services.AddSingleton(new GridShelf(options.Grids));
        services.AddSingleton<ForecastDesk>();
        services.AddRoutingCore();
        services.AddProblems();
        services.AddHostFiltering(filter => (filter.AllowedHosts, filter.IncludeFailureMessage) = (Loopback.HostNames, false));
        services.AddResponseCompression(compression => compression.MimeTypes = [.. ResponseCompressionDefaults.MimeTypes, "application/problem+json"]);
        services.ConfigureHttpJsonOptions(json => AnswerJson.Configure(json.SerializerOptions));
        services.AddDescription();
    }

    private static void Use(WebApplication app)
    {
        app.UseSafetyHeaders();
        app.UseExceptionHandler();
        app.UseStatusCodePages();
        app.UseHostFiltering();
        app.UseResponseCompression();
        app.UsePage();
    }

    private static void Map(WebApplication app)
    {
        app.MapHealth();
        app.MapForecasts();
        app.MapSun();
        app.MapGrids();
        app.MapTakes();
        app.MapDemo();
        app.MapOpenApi();
    }
}
