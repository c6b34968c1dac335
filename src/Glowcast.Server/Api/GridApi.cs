using Glowcast.Server.Answers;
using Glowcast.Server.Forecasts;
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
        group.MapGet("/", All).WithSummary("The elevation grids of this service.");
        group.MapGet("/{id}", One).WithSummary("One elevation grid: its posts, its bounds, its heights.");
    }

    private static Ok<GridEntry[]> All(GridShelf grids) =>
        TypedResults.Ok(grids.Ids.Select(id => new GridEntry(id, GridAnswer.Of(grids.Find(id)!))).ToArray());

    private static Results<Ok<GridAnswer>, ProblemHttpResult> One(string id, GridShelf grids) => grids.Find(id) is { } grid
        ? TypedResults.Ok(GridAnswer.Of(grid))
        : TypedResults.Problem($"This service has no grid '{id}'.", statusCode: StatusCodes.Status404NotFound);
}
