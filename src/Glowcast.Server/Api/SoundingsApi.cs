using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using Glowcast.Server.Answers;
using Glowcast.Server.Problems;
using Microsoft.AspNetCore.Mvc;
using NodaTime;

namespace Glowcast.Server.Api;

internal static class SoundingsApi
{
    private const int MostBodyBytes = 1_000_000;

    private static readonly QueryParameter[] Parameters =
    [
        new("lookoutHeightM", "Of the lookout above the sea: is it above the deck, at its top, in it, or below?", "number"),
        new("latitudeDeg", "Of the lookout, to tell how far away the profile was taken.", "number"),
        new("longitudeDeg", "Of the lookout, with latitudeDeg.", "number"),
        new("at", "What the answer is for, an instant with its offset from UTC, to tell how old the profile is then."),
    ];

    public static void MapSoundings(this IEndpointRouteBuilder routes) => routes.MapPost("/api/soundings", PostAsync)
        .WithTags("Soundings")
        .WithSummary("What a sounding tells of a sea of cloud: whether there will be one, and where its top is.")
        .WithDescription("The body is the text of a sounding: WMO FM 35 TEMP message, university text listing or its CSV, or CSV with named columns.")
        .TakesQuery(Parameters)
        .Accepts<string>("text/plain").ShowsBody("text/plain", Examples.Sounding)
        .WithMetadata(new RequestSizeLimitAttribute(MostBodyBytes))
        .Produces<SoundingAnswer>()
        .ProducesValidationProblem()
        .ProducesProblem(StatusCodes.Status413PayloadTooLarge)
        .ProducesProblem(StatusCodes.Status429TooManyRequests);

    private static async Task<IResult> PostAsync(HttpRequest request, Queues queues, CancellationToken cancel)
    {
        using var room = await queues.Arriving.TakeAsync(cancel);
        using var body = new StreamReader(request.Body);
        var text = await body.ReadToEndAsync(cancel);
        var faults = new Faults();
        var query = new QueryFields(request.Query, faults);
        var height = query.NumberOrNone("lookoutHeightM", -500, 9000);
        GeoPoint? place = query.Has("latitudeDeg") || query.Has("longitudeDeg")
            ? GeoPoint.FromDegrees(query.Number("latitudeDeg", -90, 90), query.Number("longitudeDeg", -180, 180))
            : null;
        Instant? at = query.Has("at") ? query.Optional("at", QueryFields.Moment) : null;
        query.RefuseUnknown();
        faults.ThrowIfAny();
        var profile = Profile.Read(text, "sounding");
        return TypedResults.Ok(SoundingAnswer.Of(
            CloudDiagnosis.Of(profile), ProfileReach.Of(profile.Sounding, place, at), height is { } metres ? Length.FromMetres(metres) : null));
    }
}
