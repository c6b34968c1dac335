using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Grids;
using Glowcast.Server.Problems;

namespace Glowcast.Server.Api;

internal static class HillshadeApi
{
    private const int UsualPixels = 800;
    private const int MostPixels = 1600;

    private static readonly QueryParameter[] Parameters =
    [
        new("west", "Longitude of the left edge. Default: the grid's.", "number"),
        new("south", "Latitude of the lower edge. Default: the grid's.", "number"),
        new("east", "Longitude of the right edge, greater than west; beyond 180 across the date line. Default: the grid's.", "number"),
        new("north", "Latitude of the upper edge. Default: the grid's.", "number"),
        new("pixels", $"Of the longer side, up to {MostPixels}. Default {UsualPixels}.", "integer"),
    ];

    public static void MapHillshade(this IEndpointRouteBuilder routes) => routes.MapGet("/api/grids/{id}/hillshade", GetAsync)
        .WithTags("Grids")
        .WithSummary("Shaded relief of a grid, in grey; transparent where it has no ground.")
        .WithDescription("Latitude and longitude run evenly over the picture; pixels are about as wide as they are high on the ground.")
        .TakesQuery(Parameters)
        .Produces(StatusCodes.Status200OK, contentType: "image/png")
        .ProducesValidationProblem()
        .ProducesProblem(StatusCodes.Status404NotFound)
        .ProducesProblem(StatusCodes.Status429TooManyRequests);

    private static async Task<IResult> GetAsync(string id, HttpContext context, GridShelf grids, Queues queues)
    {
        using var turn = await queues.Hillshades.TakeAsync(context.RequestAborted);
        if (await grids.FindAsync(id, context.RequestAborted) is not { } grid) return await grids.NotFoundAsync(id, context.RequestAborted);
        var (window, pixels) = Read(context.Request.Query, grid.Posts);
        var (width, height) = Size(window, pixels);
        var picture = Hillshade.Of(grid, window, width, height, context.RequestAborted);
        return ETags.Bytes(GreyPng.Write(picture.Shades, width, height), "image/png");
    }

    private static (GeoWindow Window, int Pixels) Read(IQueryCollection asked, GridPosts posts)
    {
        var faults = new Faults();
        var query = new QueryFields(asked, faults);
        var window = new GeoWindow(
            query.Number("north", -90, 90, posts.NorthDeg), query.Number("south", -90, 90, posts.SouthDeg),
            query.Number("west", -360, 360, posts.WestDeg), query.Number("east", -360, 540, posts.EastDeg));
        var pixels = query.Number("pixels", 16, MostPixels, UsualPixels);
        query.RefuseUnknown();
        var areNumbers = !faults.Any;
        if (areNumbers && window.NorthDeg <= window.SouthDeg) faults.Add("north", $"Must be greater than south; got {window.NorthDeg} and {window.SouthDeg}.");
        if (areNumbers && (window.EastDeg <= window.WestDeg || window.EastDeg - window.WestDeg > 360))
            faults.Add("east", $"Must be greater than west, by at most 360; got {window.EastDeg} and {window.WestDeg}.");
        faults.ThrowIfAny();
        return (window, (int)pixels);
    }

    private static (int Width, int Height) Size(GeoWindow window, int pixels)
    {
        var middle = double.DegreesToRadians((window.NorthDeg + window.SouthDeg) / 2);
        var shape = (window.NorthDeg - window.SouthDeg) / ((window.EastDeg - window.WestDeg) * Math.Max(0.01, Math.Cos(middle)));
        return shape > 1
            ? (Math.Max(1, (int)Math.Round(pixels / shape)), pixels)
            : (pixels, Math.Max(1, (int)Math.Round(pixels * shape)));
    }
}
