using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Glowcast.Server.Api;

internal static class DemoApi
{
    public static void MapDemo(this IEndpointRouteBuilder routes) => routes.MapGet("/api/demo", Get)
        .WithTags("Demo")
        .WithSummary("The plan that the page opens with.")
        .AnswersPlan();

    private static Results<Ok<JsonElement>, ProblemHttpResult> Get(ServerOptions options) => options.DemoPlan is { } plan
        ? TypedResults.Ok(plan)
        : TypedResults.Problem("This service was started without a demo plan.", statusCode: StatusCodes.Status404NotFound);
}
