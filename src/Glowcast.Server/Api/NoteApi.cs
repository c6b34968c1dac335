using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Server.Forecasts;
using Glowcast.Server.Notes;
using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime;

namespace Glowcast.Server.Api;

/// <param name="Against">What all of them say together.</param>
/// <param name="Notes">The latest first.</param>
public sealed record NotesAnswer(SeenAgainstForecast Against, IReadOnlyList<FieldNote> Notes);

internal static class NoteApi
{
    private static readonly QueryParameter[] Place =
    [
        new("latitudeDeg", "Of one lookout; leave both out for all.", "number"),
        new("longitudeDeg", "Of one lookout.", "number"),
    ];

    public static void MapNotes(this IEndpointRouteBuilder routes)
    {
        var group = routes.MapGroup("/api/notes").WithTags("Field notes");
        group.MapGet("/", AllAsync).WithSummary("What was seen in the field, and how far forecasts were off: bias and spread, of one lookout or of all.")
            .TakesQuery(Place).Produces<NotesAnswer>().ProducesValidationProblem();
        group.MapGet("/applied", AppliedAsync)
            .WithSummary("A forecast with its moments moved by what field notes have shown them to be off.")
            .WithDescription("No forecast does so by itself. The bias is that of the lookout where it has three notes of the kind or more, else that of all lookouts; the answer says by how much each moment was moved, from how many notes, and whether so much may be chance. A moment that is no edge of light on the ridge stays.")
            .TakesQuery(new QueryParameter("forecast", "The address of a forecast of this service.", IsRequired: true))
            .Produces<AppliedNotesAnswer>().ProducesValidationProblem();
        group.MapGet("/{id}", OneAsync).WithSummary("One field note.").Produces<FieldNote>().ProducesProblem(StatusCodes.Status404NotFound);
        group.MapPost("/", PostAsync)
            .WithSummary("Notes what was seen in the field on the day of a forecast.")
            .WithDescription("firstLight and lastLight are compared with start and end of the forecast's window (the first, unless window says another), deckTopM with the deck that was assumed. Later forecasts show what all notes say.")
            .TakesNote()
            .Produces<FieldNote>(StatusCodes.Status201Created).ProducesValidationProblem().ProducesProblem(StatusCodes.Status413PayloadTooLarge)
            .ProducesProblem(StatusCodes.Status415UnsupportedMediaType).ProducesProblem(StatusCodes.Status422UnprocessableEntity)
            .ProducesProblem(StatusCodes.Status507InsufficientStorage);
        group.MapDelete("/{id}", DeleteAsync).WithSummary("Forgets a field note.").Produces(StatusCodes.Status204NoContent).ProducesValidationProblem().ProducesProblem(StatusCodes.Status404NotFound).ProducesProblem(StatusCodes.Status412PreconditionFailed);
    }

    /// <summary>The answer where no more may be kept.</summary>
    public static ProblemHttpResult TooMany => TypedResults.Problem("There are as many field notes as may be kept; delete some.", statusCode: StatusCodes.Status422UnprocessableEntity);

    private static async Task<IResult> AllAsync(HttpContext context, NoteBook notes)
    {
        var faults = new Faults();
        var query = new QueryFields(context.Request.Query, faults);
        var (latitude, longitude) = (query.NumberOrNone("latitudeDeg", -90, 90), query.NumberOrNone("longitudeDeg", -180, 180));
        query.RefuseUnknown();
        if (latitude is null != longitude is null) faults.Add(latitude is null ? "latitudeDeg" : "longitudeDeg", "Is missing; latitude and longitude belong together.");
        faults.ThrowIfAny();
        var found = await notes.AllAsync(latitude is { } north && longitude is { } east ? FieldNote.PlaceOf(north, east) : null, context.RequestAborted);
        return ETags.Json(new NotesAnswer(SeenAgainstForecast.Of(found), found));
    }

    private static async Task<IResult> AppliedAsync(HttpContext context, NoteBook notes, ForecastDesk desk)
    {
        var faults = new Faults();
        var query = new QueryFields(context.Request.Query, faults);
        var address = query.Optional("forecast", (text, _) => text);
        query.RefuseUnknown();
        var answer = address is null ? null : await desk.FindAsync(address, ForecastParts.Bare, context.RequestAborted);
        if (answer is null) faults.Add("forecast", "Must be the address of a forecast of this service, as its answer gave it; post its plan again to have it anew.");
        faults.ThrowIfAny();
        return ETags.Json(AppliedNotesAnswer.Of(address!, JsonElement.Parse(answer!), await notes.AllAsync(null, context.RequestAborted)));
    }

    private static async Task<IResult> OneAsync(string id, NoteBook notes, CancellationToken cancel) =>
        await notes.FindAsync(id, cancel) is { } note ? ETags.Json(note) : NotFound(id);

    private static async Task<IResult> PostAsync(HttpContext context, NoteBook notes, ForecastDesk desk, IClock clock)
    {
        using var body = await context.Request.ParseJsonAsync(context.RequestAborted);
        var address = NoteReader.ForecastIn(body.RootElement);
        var answer = address is null ? null : await desk.FindAsync(address, ForecastParts.Bare, context.RequestAborted);
        var now = clock.GetCurrentInstant();
        var note = NoteReader.Read(body.RootElement, answer is null ? null : JsonElement.Parse(answer), now);
        return await notes.AddAsync(note, now, context.RequestAborted)
            ? TypedResults.Created($"/api/notes/{note.Id}", note)
            : TooMany;
    }

    private static async Task<IResult> DeleteAsync(string id, HttpContext context, NoteBook notes)
    {
        var condition = new WriteCondition(context.Request.Headers);
        if (await notes.FindAsync(id, context.RequestAborted) is not { } note) return NotFound(id);
        if (!condition.Allows(ETags.TagOf(note))) return WriteCondition.Refused($"field note '{id}'");
        return await notes.DeleteAsync(id, context.RequestAborted) ? TypedResults.NoContent() : NotFound(id);
    }

    private static ProblemHttpResult NotFound(string id) => TypedResults.Problem($"There is no field note '{Shortened.To80(id)}'.", statusCode: StatusCodes.Status404NotFound);
}
