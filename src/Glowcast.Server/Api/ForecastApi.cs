using Glowcast.Engine.Measures;
using Glowcast.Server.Answers;
using Glowcast.Server.Forecasts;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Glowcast.Server.Api;

internal static class ForecastApi
{
    private static readonly QueryParameter Pictures = new("pictures", "Whether to send the light chart and the ridge picture too.", "boolean");

    public static void MapForecasts(this IEndpointRouteBuilder routes)
    {
        var group = routes.MapGroup("/api/forecasts").WithTags("Forecasts");
        group.MapPost("/", PostAsync)
            .WithSummary("The whole job: windows of light, the set, and whether the one fits into the other.")
            .WithDescription("The body is a plan. A day without light is an answer like any other. Content-Location is where the answer can be got again.")
            .TakesPlan().TakesQuery(Pictures)
            .Produces<ForecastAnswer>()
            .ProducesValidationProblem()
            .ProducesProblem(StatusCodes.Status413PayloadTooLarge)
            .ProducesProblem(StatusCodes.Status415UnsupportedMediaType)
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity)
            .ProducesProblem(StatusCodes.Status429TooManyRequests);
        group.MapGet("/{address}", GetAsync)
            .WithSummary("A forecast that was worked out, while it is remembered.")
            .WithDescription("The address is a hash of all that the forecast depends on, so what stands there never changes.")
            .TakesQuery(Pictures)
            .Produces<ForecastAnswer>().Produces(StatusCodes.Status304NotModified).ProducesValidationProblem().ProducesProblem(StatusCodes.Status404NotFound);
    }

    /// <summary>The answer where a forecast is asked for that is not remembered.</summary>
    public static ProblemHttpResult NotRemembered(string address) => TypedResults.Problem(
        $"No forecast is remembered as '{Shortened.To80(address)}'; post its plan to /api/forecasts to have it anew.", statusCode: StatusCodes.Status404NotFound);

    private static async Task<IResult> PostAsync(HttpContext context, ForecastDesk desk)
    {
        var body = await context.Request.ReadJsonAsync(context.RequestAborted);
        var faults = new Faults();
        var part = PartIn(context, faults);
        var address = await desk.AnswerAsync(body, faults, context.RequestAborted);
        context.Response.Headers.ContentLocation = $"/api/forecasts/{address}{(part == ForecastParts.WithPictures ? "?pictures=true" : "")}";
        return TypedResults.Bytes((await desk.FindAsync(address, part, context.RequestAborted))!, ETags.JsonType);
    }

    private static async Task<IResult> GetAsync(string address, HttpContext context, ForecastDesk desk)
    {
        var faults = new Faults();
        var part = PartIn(context, faults);
        faults.ThrowIfAny();
        return await desk.FindAsync(address, part, context.RequestAborted) is { } content
            ? ETags.Forever(context, content, ETags.JsonType, ForecastParts.Key(address, part))
            : NotRemembered(address);
    }

    private static string PartIn(HttpContext context, Faults faults)
    {
        var query = new QueryFields(context.Request.Query, faults);
        var withPictures = query.Flag("pictures");
        query.RefuseUnknown();
        return withPictures ? ForecastParts.WithPictures : ForecastParts.Bare;
    }
}
