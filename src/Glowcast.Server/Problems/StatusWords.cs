using Glowcast.Engine.Measures;

namespace Glowcast.Server.Problems;

/// <summary>What there is to say of a request that met no endpoint.</summary>
internal static class StatusWords
{
    /// <returns>Null where the title says all.</returns>
    public static string? For(HttpContext context, int? status) => status switch
    {
        StatusCodes.Status404NotFound => $"There is nothing at {context.Request.Path}; /openapi/v1.json describes what there is.",
        StatusCodes.Status405MethodNotAllowed => $"{context.Request.Path} does not answer to {context.Request.Method}{Allowed(context)}.",
        StatusCodes.Status415UnsupportedMediaType => $"{context.Request.Path} does not take {Sent(context)}; /openapi/v1.json describes what it takes.",
        _ => null,
    };

    private static string Sent(HttpContext context) => context.Request.ContentType is { Length: > 0 } type ? $"a body of the type '{Shortened.To80(type)}'" : "a body without a Content-Type";

    private static string Allowed(HttpContext context) => context.Response.Headers.Allow is { Count: > 0 } allowed ? $"; it answers to {allowed}" : "";
}
