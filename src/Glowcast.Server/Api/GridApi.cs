using Glowcast.Server.Answers;
using Glowcast.Server.Grids;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Glowcast.Server.Api;

/// <summary>An elevation grid of this service.</summary>
/// <param name="Id">What plans name it by.</param>
public sealed record GridEntry(string Id, GridAnswer Grid);

internal static class GridApi
{
    public static void MapGrids(this IEndpointRouteBuilder routes)
    {
        var group = routes.MapGroup("/api/grids").WithTags("Grids");
        group.MapGet("/", All).WithSummary("The elevation grids of this service.").Produces<GridEntry[]>();
        group.MapGet("/{id}", One).WithSummary("One elevation grid: its posts, its bounds, its heights.")
            .Produces<GridAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
    }

    /// <summary>The answer where a grid is asked for that is not here; it says which are.</summary>
    public static ProblemHttpResult NotFound(this GridShelf grids, string id) => TypedResults.Problem(
        $"This service has no grid '{id}'; {grids.Say()}.", statusCode: StatusCodes.Status404NotFound);

    private static FileContentHttpResult All(GridShelf grids) =>
        Tagged.Json(grids.Ids.Select(id => new GridEntry(id, GridAnswer.Of(grids.Find(id)!))));

    private static IResult One(string id, GridShelf grids) => grids.Find(id) is { } grid ? Tagged.Json(GridAnswer.Of(grid)) : grids.NotFound(id);
}
