namespace Glowcast.Server.Safety;

/// <summary>What every answer tells the browser to keep to.</summary>
internal static class SafetyHeaders
{
    private static readonly (string Name, string Value)[] All =
    [
        ("Content-Security-Policy", "default-src 'self'; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"),
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
            foreach (var (name, value) in All) context.Response.Headers[name] = value;
            return Task.CompletedTask;
        });
        return next(context);
    });
}
