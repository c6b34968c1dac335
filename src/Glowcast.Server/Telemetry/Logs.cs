using Microsoft.Extensions.Logging.Console;

namespace Glowcast.Server.Telemetry;

/// <summary>The log, on standard error: standard output belongs to whoever starts the service.</summary>
internal static class Logs
{
    /// <param name="asJson">One JSON object a line, requests too; otherwise what went wrong, for people.</param>
    public static void AddLogs(this ILoggingBuilder logging, bool asJson)
    {
        if (asJson) logging.AddJsonConsole(json => (json.UseUtcTimestamp, json.TimestampFormat) = (true, "yyyy-MM-ddTHH:mm:ss.fffZ"))
            // It would log requests with their queries.
            .AddFilter("Microsoft.AspNetCore", LogLevel.Warning)
            .AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.None);
        else logging.SetMinimumLevel(LogLevel.Warning).AddSimpleConsole()
            // A start that fails is told by whoever starts the service, in a line.
            .AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.None);
        logging.Services.Configure<ConsoleLoggerOptions>(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
    }
}
