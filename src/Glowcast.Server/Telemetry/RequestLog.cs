using System.Diagnostics;

namespace Glowcast.Server.Telemetry;

/// <summary>One line of the log for each request: what was asked for and what came of it. Queries are left out: whoever writes a token there does not want it
/// to be read by all who read the log.</summary>
internal static partial class RequestLog
{
    public static void UseRequestLog(this WebApplication app)
    {
        var log = app.Services.GetRequiredService<ILoggerFactory>().CreateLogger("Glowcast.Requests");
        app.Use(async (context, next) =>
        {
            var started = Stopwatch.GetTimestamp();
            try
            {
                await next(context);
            }
            finally
            {
                var durationMs = Stopwatch.GetElapsedTime(started).TotalMilliseconds;
                var (method, path) = (context.Request.Method, context.Request.Path.Value);
                Answered(log, method, path, context.Response.StatusCode, durationMs);
            }
        });
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "{Method} {Path} {StatusCode} {DurationMs} ms")]
    private static partial void Answered(ILogger log, string method, string? path, int statusCode, double durationMs);
}
