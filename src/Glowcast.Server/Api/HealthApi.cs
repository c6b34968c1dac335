using Microsoft.AspNetCore.Http.HttpResults;

namespace Glowcast.Server.Api;

public sealed record HealthAnswer(string Status);

internal static class HealthApi
{
    public static void MapHealth(this IEndpointRouteBuilder routes) => routes.MapGet("/health", Get)
        .WithTags("Health")
        .WithSummary("Whether the service answers at all.");

    private static Ok<HealthAnswer> Get() => TypedResults.Ok(new HealthAnswer("ok"));
}
