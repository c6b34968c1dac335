using Glowcast.Engine.Measures;
using Glowcast.Server.Answers;
using Glowcast.Server.Forecasts;

namespace Glowcast.Server.Api;

internal static class ForecastApi
{
    public static void MapForecasts(this IEndpointRouteBuilder routes) => routes.MapPost("/api/forecasts", PostAsync)
        .WithTags("Forecasts")
        .WithSummary("The whole job: windows of light, the set, and whether the one fits into the other.")
        .WithDescription("The body is a plan. A day without light is an answer like any other.")
        .TakesPlan()
        .TakesQuery(new QueryParameter("pictures", "Whether to send the light chart and the ridge picture too.", "boolean"))
        .Produces<ForecastAnswer>()
        .ProducesValidationProblem()
        .ProducesProblem(StatusCodes.Status413PayloadTooLarge)
        .ProducesProblem(StatusCodes.Status415UnsupportedMediaType);

    private static async Task<IResult> PostAsync(HttpContext context, ForecastDesk desk)
    {
        var body = await context.Request.ReadJsonAsync(context.RequestAborted);
        var faults = new Faults();
        var query = new QueryFields(context.Request.Query, faults);
        var withPictures = query.Flag("pictures");
        query.RefuseUnknown();
        return TypedResults.Bytes(
            await desk.AnswerAsync(body, withPictures, faults, context.RequestAborted), "application/json; charset=utf-8");
    }
}
