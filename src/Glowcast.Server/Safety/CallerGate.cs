using Microsoft.Net.Http.Headers;

namespace Glowcast.Server.Safety;

/// <summary>Turns away what a page elsewhere makes a browser ask: by another name of this machine (DNS rebinding), or from another origin.</summary>
internal static class CallerGate
{
    public static void UseCallerGate(this IApplicationBuilder app, ListenAddresses listen) => app.Use((context, next) =>
    {
        if (listen.IsThisMachineOnly && !BoundAddresses.IsReachedAtThisMachine(context.Connection))
            return Refusal.WriteAsync(context, StatusCodes.Status403Forbidden, "This service answers this machine only.");
        if (listen.IsThisMachineOnly && !ListenAddresses.NamesOfThisMachine.Contains(context.Request.Host.Host))
            return Refusal.WriteAsync(context, StatusCodes.Status400BadRequest, $"This service is called by {string.Join(", ", ListenAddresses.NamesOfThisMachine)} only; the request names another host.");
        return IsFromElsewhere(context.Request)
            ? Refusal.WriteAsync(context, StatusCodes.Status403Forbidden, "This service answers its own page and programs, not pages of other origins.")
            : next(context);
    });

    private static bool IsFromElsewhere(HttpRequest request)
    {
        if (request.Headers.TryGetValue(HeaderNames.Origin, out var origins) && origins.Any(origin => !IsOwn(origin, request.Host))) return true;
        var site = request.Headers["Sec-Fetch-Site"].ToString();
        return site is "cross-site" or "same-site" && request.Path.StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase);
    }

    private static bool IsOwn(string? origin, HostString host) =>
        Uri.TryCreate(origin, UriKind.Absolute, out var uri) && string.Equals(uri.Authority, WithoutUsualPort(uri, host), StringComparison.OrdinalIgnoreCase);

    // An authority leaves the usual port of its scheme out.
    private static string WithoutUsualPort(Uri origin, HostString host) => host.Port is { } port && origin.IsDefaultPort && port == origin.Port ? host.Host : host.Value ?? "";
}
