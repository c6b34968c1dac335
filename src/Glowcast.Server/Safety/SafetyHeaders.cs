using Glowcast.Server.Api;

namespace Glowcast.Server.Safety;

/// <summary>What every answer tells the browser to keep to.</summary>
internal static class SafetyHeaders
{
    private const string Policy = "default-src 'self'; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

    // The page to browse the description is not ours and writes styles and scripts into itself; it can still reach nothing but this service.
    private const string PolicyOfReference = Policy + "; script-src 'self' 'unsafe-inline'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; font-src 'self' data:";

    private static readonly (string Name, string Value)[] All =
    [
        ("X-Content-Type-Options", "nosniff"),
        ("Referrer-Policy", "no-referrer"),
        ("Cross-Origin-Opener-Policy", "same-origin"),
        ("Cross-Origin-Resource-Policy", "same-origin"),
    ];

    public static void UseSafetyHeaders(this IApplicationBuilder app) => app.Use((context, next) =>
    {
        // Late, since an answer to an exception begins by clearing what was set.
        context.Response.OnStarting(() =>
        {
            context.Response.Headers.ContentSecurityPolicy = context.Request.Path.StartsWithSegments(Reference.Path, StringComparison.OrdinalIgnoreCase) ? PolicyOfReference : Policy;
            foreach (var (name, value) in All) context.Response.Headers[name] = value;
            return Task.CompletedTask;
        });
        return next(context);
    });
}
