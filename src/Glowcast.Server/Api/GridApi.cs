using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Server.Answers;
using Glowcast.Server.Grids;
using Glowcast.Server.Jobs;
using Glowcast.Server.Problems;
using Glowcast.Server.Store;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Glowcast.Server.Api;

internal static class GridApi
{
    private const string FileType = "application/octet-stream";

    public static void MapGrids(this IEndpointRouteBuilder routes)
    {
        var group = routes.MapGroup("/api/grids").WithTags("Grids");
        group.MapGet("/", AllAsync).WithSummary("The elevation grids of this service.").Produces<GridEntry[]>();
        group.MapGet("/{id}", OneAsync).WithSummary("One elevation grid: its posts, its bounds, its heights.")
            .Produces<GridAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
        group.MapPost("/", PostAsync)
            .WithSummary("Takes an elevation grid in: SRTM .hgt (or zipped), GeoTIFF, DTED, Esri ASCII.")
            .WithDescription("The body is the file itself. It is kept if a grid can be read from it, under an id made of its name and bytes; sending it again changes nothing. With the header Prefer: respond-async (RFC 7240) it is read in a job.")
            .TakesFile(FileType)
            .TakesQuery(new QueryParameter("name", "The file's name, such as N46E007.hgt: it tells the format, and in some the place.", IsRequired: true))
            .Produces<GridEntry>().Produces<GridEntry>(StatusCodes.Status201Created).Produces<JobAnswer>(StatusCodes.Status202Accepted).ProducesValidationProblem()
            .ProducesProblem(StatusCodes.Status413PayloadTooLarge).ProducesProblem(StatusCodes.Status415UnsupportedMediaType)
            .ProducesValidationProblem(StatusCodes.Status422UnprocessableEntity).ProducesProblem(StatusCodes.Status429TooManyRequests).ProducesProblem(StatusCodes.Status507InsufficientStorage);
        group.MapDelete("/{id}", DeleteAsync).WithSummary("Forgets an elevation grid that was taken in.")
            .Produces(StatusCodes.Status204NoContent).ProducesValidationProblem().ProducesProblem(StatusCodes.Status412PreconditionFailed).ProducesProblem(StatusCodes.Status404NotFound).ProducesProblem(StatusCodes.Status409Conflict);
    }

    /// <summary>The answer where a grid is asked for that is not here; it says which are.</summary>
    public static async Task<ProblemHttpResult> NotFoundAsync(this GridShelf grids, string id, CancellationToken cancel) => TypedResults.Problem(
        $"This service has no grid '{Shortened.To80(id)}'; {await grids.SayAsync(cancel)}.", statusCode: StatusCodes.Status404NotFound);

    private static async Task<IResult> AllAsync(GridShelf grids, CancellationToken cancel) => ETags.Json(await grids.EntriesAsync(cancel));

    private static async Task<IResult> OneAsync(string id, GridShelf grids, CancellationToken cancel) =>
        await grids.EntryAsync(id, cancel) is { } entry ? ETags.Json(entry.Grid) : await grids.NotFoundAsync(id, cancel);

    private static async Task<IResult> PostAsync(HttpContext context, ServerOptions options, IGrids grids, GridReception reception, JobRunner runner)
    {
        var faults = new Faults();
        var query = new QueryFields(context.Request.Query, faults);
        var name = GridReception.ReadName(query.Optional("name", (text, _) => text), faults);
        query.RefuseUnknown();
        faults.ThrowIfAny();
        if (!string.Equals(context.Request.ContentType, FileType, StringComparison.OrdinalIgnoreCase))
            throw new BadHttpRequestException($"Send the file as it is, with Content-Type {FileType}.", StatusCodes.Status415UnsupportedMediaType);
        context.Features.GetRequiredFeature<IHttpMaxRequestBodySizeFeature>().MaxRequestBodySize = options.MostUploadBytes;
        using var arrived = await ArrivedAsync(context, options, name, grids, reception);
        if (PrefersJob(context.Request)) return JobApi.Accepted(await HoldAsync(arrived, grids, runner, context.RequestAborted));
        try
        {
            var (entry, isNew) = await reception.KeepAsync(arrived, context.RequestAborted);
            return isNew ? TypedResults.Created($"/api/grids/{entry.Id}", entry) : TypedResults.Ok(entry);
        }
        catch (BadInputException bad)
        {
            return FaultsAsProblems.Result(bad, StatusCodes.Status422UnprocessableEntity);
        }
    }

    // Room to arrive is given back before the grid waits to be read: it lies on the disk by then.
    private static async Task<ArrivedGrid> ArrivedAsync(HttpContext context, ServerOptions options, string name, IGrids grids, GridReception reception)
    {
        ArrivedGrid? arrived = null;
        using var room = await reception.WaitForRoomAsync(context.RequestAborted);
        await Arrival.WithinAsync(options.LongestArrival, async cancel => arrived = await grids.ReceiveAsync(context.Request.Body, name, cancel), context.RequestAborted);
        return arrived!;
    }

    private static bool PrefersJob(HttpRequest request) =>
        request.Headers["Prefer"].Any(preferred => preferred?.Contains("respond-async", StringComparison.OrdinalIgnoreCase) == true);

    private static async Task<Job> HoldAsync(ArrivedGrid arrived, IGrids grids, JobRunner runner, CancellationToken cancel)
    {
        var held = grids.Hold(arrived);
        try
        {
            return await runner.AddAsync(GridJob.Kind, JsonSerializer.Serialize(held, AnswerJson.Options), cancel);
        }
        catch
        {
            grids.Drop(held);
            throw;
        }
    }

    private static async Task<IResult> DeleteAsync(string id, HttpContext context, ServerOptions options, IGrids grids, GridShelf shelf, CancellationToken cancel)
    {
        var condition = new WriteCondition(context.Request.Headers);
        if (options.Grids.ContainsKey(id)) return TypedResults.Problem($"'{id}' was given when the service started and stays until it ends.", statusCode: StatusCodes.Status409Conflict);
        if (await shelf.EntryAsync(id, cancel) is { } entry && !condition.Allows(ETags.TagOf(entry.Grid))) return WriteCondition.Refused($"grid '{id}'");
        if (!await grids.DeleteAsync(id, cancel)) return await shelf.NotFoundAsync(id, cancel);
        shelf.Forget(id);
        return TypedResults.NoContent();
    }
}
