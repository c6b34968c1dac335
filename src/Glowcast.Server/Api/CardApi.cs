using Glowcast.Engine.Measures;
using Glowcast.Field.Card;
using Glowcast.Field.Exports;
using Glowcast.Server.Forecasts;
using NodaTime;

namespace Glowcast.Server.Api;

internal static class CardApi
{
    private static readonly string Extensions = string.Join(", ", FieldFormat.All.Select(format => format.Extension[1..]));

    private static readonly QueryParameter As = new("as", $"What to be taken along as: {Extensions}. Default html, the field card.", Example: "gpx");

    public static void MapCards(this IEndpointRouteBuilder routes) => routes.MapPost("/api/cards", PostAsync)
        .WithTags("Forecasts")
        .WithSummary("The field card of a plan, or its calendar event, waypoints, frames or pictures, as a file.")
        .WithDescription("The body is a plan.")
        .TakesPlan().TakesQuery(As)
        .Produces(StatusCodes.Status200OK, contentType: "text/html")
        .ProducesValidationProblem()
        .ProducesProblem(StatusCodes.Status413PayloadTooLarge)
        .ProducesProblem(StatusCodes.Status415UnsupportedMediaType)
        .ProducesProblem(StatusCodes.Status422UnprocessableEntity)
        .ProducesProblem(StatusCodes.Status429TooManyRequests);

    private static async Task<IResult> PostAsync(HttpContext context, ForecastDesk desk, IClock clock)
    {
        var body = await context.Request.ReadJsonAsync(context.RequestAborted);
        var faults = new Faults();
        var query = new QueryFields(context.Request.Query, faults);
        var name = query.Optional("as", (text, _) => text) ?? "html";
        query.RefuseUnknown();
        var format = FieldFormat.Of($".{name}");
        if (format is null) faults.Add("as", $"Must be one of {Extensions}; got '{Shortened.To80(name)}'.");
        var forecast = await desk.ForecastAsync(body, faults, context.RequestAborted);
        return TypedResults.Bytes(
            FieldFile.Write(forecast, new CardChoices(), format!, clock.GetCurrentInstant()), format!.MediaType, $"glowcast-{forecast.Plan.Date:uuuu-MM-dd}{format.Extension}");
    }
}
