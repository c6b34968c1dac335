namespace Glowcast.Server.Safety;

/// <summary>Says of addresses that are too long what the server below would only cut off.</summary>
internal static class LongAddresses
{
    /// <summary>What the server below takes, so that there is something to say it of.</summary>
    public const int MostLineBytes = 64 * 1024;

    private const int MostCharacters = 8 * 1024;

    public static void UseLongAddresses(this IApplicationBuilder app) => app.Use((context, next) =>
        (context.Request.Path.Value?.Length ?? 0) + (context.Request.QueryString.Value?.Length ?? 0) > MostCharacters
            ? Refusal.WriteAsync(context, StatusCodes.Status414UriTooLong, $"An address may have at most {MostCharacters} characters.")
            : next(context));
}
