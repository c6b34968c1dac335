using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Server.Answers;

namespace Glowcast.Server.Api;

internal static class SunApi
{
    private static readonly QueryParameter[] Parameters =
    [
        new("at", "An instant with its offset from UTC, such as 2026-02-14T06:45:00-05:00. Give this or date."),
        new("date", "A local date, such as 2026-02-14. Give this or at.", Example: "2026-02-14"),
        new("latitudeDeg", "Of the place; south is negative.", "number", IsRequired: true, Example: "46.5"),
        new("longitudeDeg", "Of the place; west is negative.", "number", IsRequired: true, Example: "7.5"),
        new("heightM", "Of the place. Default 0.", "number"),
        new("timeZone", "Such as Europe/Zurich. Without one, days are reckoned by the sun: local mean solar time.", Example: "Europe/Zurich"),
        new("deltaTS", "Terrestrial minus universal time, with at. Default: from a table and a forecast.", "number"),
    ];

    public static void MapSun(this IEndpointRouteBuilder routes) => routes.MapGet("/api/sun", Get)
        .WithTags("Sun")
        .WithSummary("Where the sun is at an instant, or its rising, setting and twilights on a day.")
        .TakesQuery(Parameters)
        .Produces<SunAtAnswer>()
        .AlsoAnswers<SunDayAnswer>()
        .ProducesValidationProblem();

    private static IResult Get(HttpContext context)
    {
        var faults = new Faults();
        var query = new QueryFields(context.Request.Query, faults);
        var (at, date) = (query.Optional("at", QueryFields.Moment), query.Optional("date", TimeReader.Date));
        var place = Place.FromDegrees(
            query.Number("latitudeDeg", -90, 90), query.Number("longitudeDeg", -180, 180), query.Number("heightM", -500, 9000, 0));
        var zone = query.Optional("timeZone", TimeReader.Zone);
        var deltaTS = query.NumberOrNone("deltaTS", -10_000, 100_000);
        query.RefuseUnknown();
        if (query.Has("at") == query.Has("date")) faults.Add("at", "Give either at for an instant, or date for a day.");
        if (query.Has("date") && query.Has("deltaTS")) faults.Add("deltaTS", "Belongs to at; leave it out with date.");
        faults.ThrowIfAny();
        return query.Has("date")
            ? TypedResults.Ok(SunDayAnswer.Of(date, place, zone))
            : TypedResults.Ok(SunAtAnswer.Of(at, place, deltaTS));
    }
}
