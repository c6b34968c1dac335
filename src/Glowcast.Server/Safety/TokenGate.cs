using System.Net.Http.Headers;
using System.Text;

namespace Glowcast.Server.Safety;

/// <summary>Lets nobody in without the token: as bearer token (RFC 6750), or as the password that a browser asks for (RFC 7617), whatever the user name.</summary>
internal static class TokenGate
{
    private const string Health = "/health";

    public static void UseTokenGate(this IApplicationBuilder app, AccessToken token) => app.Use((context, next) =>
    {
        if (context.Request.Path == Health || (Shown(context.Request) is { } shown && token.Is(shown))) return next(context);
        context.Response.Headers.WWWAuthenticate = """Bearer realm="Glowcast", Basic realm="Glowcast: the token is the password", charset="UTF-8" """.TrimEnd();
        return Refusal.WriteAsync(context, StatusCodes.Status401Unauthorized, "Show the token that the service gave when it was first started: Authorization: Bearer, then the token.");
    });

    private static string? Shown(HttpRequest request)
    {
        if (!AuthenticationHeaderValue.TryParse(request.Headers.Authorization, out var shown) || shown.Parameter is null) return null;
        if (shown.Scheme.Equals("Bearer", StringComparison.OrdinalIgnoreCase)) return shown.Parameter;
        return shown.Scheme.Equals("Basic", StringComparison.OrdinalIgnoreCase) ? PasswordIn(shown.Parameter) : null;
    }

    private static string? PasswordIn(string base64)
    {
        var bytes = new byte[base64.Length];
        if (!Convert.TryFromBase64String(base64, bytes, out var length)) return null;
        var (user, colon, password) = Parts(Encoding.UTF8.GetString(bytes, 0, length));
        return colon ? password : user;
    }

    private static (string User, bool Colon, string Password) Parts(string text)
    {
        var at = text.IndexOf(':', StringComparison.Ordinal);
        return at < 0 ? (text, false, "") : (text[..at], true, text[(at + 1)..]);
    }
}
