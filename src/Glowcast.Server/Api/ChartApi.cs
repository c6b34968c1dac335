using Glowcast.Server.Answers;
using Glowcast.Server.Forecasts;
using Microsoft.Net.Http.Headers;

namespace Glowcast.Server.Api;

internal static class ChartApi
{
    private static readonly (string Type, string Part)[] Forms =
    [
        ("application/json", ForecastParts.ChartJson),
        (ChartBytes.MediaType, ForecastParts.ChartBinary),
        ("image/png", ForecastParts.ChartPicture),
    ];

    public static void MapCharts(this IEndpointRouteBuilder routes) => routes.MapGet("/api/forecasts/{address}/chart", GetAsync)
        .WithTags("Forecasts")
        .WithSummary("The light chart of a forecast that was worked out, in the form that Accept asks for.")
        .WithDescription($"JSON, {ChartBytes.MediaType}: compact bytes, whose layout docs/api.md has, or a picture as PNG.")
        .Produces<ChartAnswer>(StatusCodes.Status200OK, "application/json", ChartBytes.MediaType, "image/png")
        .Produces(StatusCodes.Status304NotModified)
        .ProducesProblem(StatusCodes.Status404NotFound)
        .ProducesProblem(StatusCodes.Status406NotAcceptable);

    private static async Task<IResult> GetAsync(string address, HttpContext context, ForecastDesk desk)
    {
        context.Response.Headers.Vary = HeaderNames.Accept;
        if (Wanted(context.Request) is not var (type, part))
            return TypedResults.Problem($"The chart comes as {string.Join(" or ", Forms.Select(form => form.Type))}.", statusCode: StatusCodes.Status406NotAcceptable);
        if (await desk.FindAsync(address, part, context.RequestAborted) is { } content)
            return ETags.Forever(context, content, type, ForecastParts.Key(address, part));
        return await desk.FindAsync(address, ForecastParts.Bare, context.RequestAborted) is null
            ? ForecastApi.NotRemembered(address)
            : TypedResults.Problem("This forecast has no chart: there is no light on a ridge that day, or no ridge.", statusCode: StatusCodes.Status404NotFound);
    }

    /// <summary>The form that the client likes best; the first where it likes several as well; null where it takes none.</summary>
    private static (string Type, string Part)? Wanted(HttpRequest request)
    {
        var accepted = request.GetTypedHeaders().Accept;
        if (accepted.Count == 0) return Forms[0];
        var liked = Forms.Select(form => (form, Quality: QualityOf(form.Type, accepted))).MaxBy(form => form.Quality);
        return liked.Quality > 0 ? liked.form : null;
    }

    // Of the ranges that a type falls in, the narrowest counts: RFC 9110, section 12.5.1.
    private static double QualityOf(string type, IList<MediaTypeHeaderValue> accepted)
    {
        var media = new MediaTypeHeaderValue(type);
        var narrowest = accepted.Where(media.IsSubsetOf).OrderBy(range => (range.MatchesAllTypes, range.MatchesAllSubTypes)).FirstOrDefault();
        return narrowest is null ? 0 : narrowest.Quality ?? 1;
    }
}
