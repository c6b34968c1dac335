using Glowcast.Server.Forecasts;
using Glowcast.Server.Jobs;

namespace Glowcast.Server.Api;

internal static class SeasonApi
{
    public static void MapSeasons(this IEndpointRouteBuilder routes) => routes.MapPost("/api/seasons", PostAsync)
        .WithTags("Forecasts")
        .WithSummary("Which days of a range have the light, the best first: long work, done as a job.")
        .WithDescription("The body is a plan, whose own date is not used, and the first and last day. The job's result is the answer that the command line gives.")
        .TakesSeason()
        .Produces<JobAnswer>(StatusCodes.Status202Accepted)
        .ProducesValidationProblem()
        .ProducesProblem(StatusCodes.Status413PayloadTooLarge)
        .ProducesProblem(StatusCodes.Status415UnsupportedMediaType)
        .ProducesProblem(StatusCodes.Status429TooManyRequests)
        .ProducesProblem(StatusCodes.Status507InsufficientStorage);

    private static async Task<IResult> PostAsync(HttpContext context, PostedPlans plans, JobRunner runner)
    {
        using var body = await context.Request.ParseJsonAsync(context.RequestAborted);
        // Judged now, so that the job cannot fail of what could be said at once.
        await SeasonRequest.ReadAsync(body.RootElement, plans, context.RequestAborted);
        return JobApi.Accepted(await runner.AddAsync(SeasonJob.Kind, body.RootElement.GetRawText(), context.RequestAborted));
    }
}
