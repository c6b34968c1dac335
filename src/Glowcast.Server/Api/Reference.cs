using Scalar.AspNetCore;

namespace Glowcast.Server.Api;

/// <summary>The description of the service to browse, out of the service itself.</summary>
internal static class Reference
{
    public const string Path = "/reference";

    public static void MapReference(this IEndpointRouteBuilder routes) => routes.MapScalarApiReference(Path, page => page
        .WithTitle("Glowcast: the service")
        .WithOpenApiRoutePattern("/openapi/v1.json")
        .DisableDefaultFonts()
        .WithProxy(""));
}
