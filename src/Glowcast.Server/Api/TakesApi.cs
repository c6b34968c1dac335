using System.Text.Json;
using System.Text.Json.Nodes;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using Glowcast.Server.Answers;
using Glowcast.Server.Forecasts;
using Glowcast.Server.Grids;
using Glowcast.Server.Kept;
using Glowcast.Server.Notes;
using Glowcast.Server.Problems;
using Glowcast.Server.Store;
using Glowcast.Server.Takes;
using Microsoft.AspNetCore.Http.Features;
using NodaTime;

namespace Glowcast.Server.Api;

internal static class TakesApi
{
    private const long MostBytes = 80 << 20;

    public static void MapTakes(this IEndpointRouteBuilder routes)
    {
        var group = routes.MapGroup("/api/takes").WithTags("Takes");
        group.MapPost("/", PostAsync)
            .WithSummary("Sorts a take into sets and says which are whole.")
            .WithDescription($"At most {PostedTakes.MostFrames} frames, by what their files say. Nothing is kept, unless keep asks for it: then what the take tells of the named forecast becomes a field note of its lookout.")
            .Accepts<PostedTake>("application/json").ShowsBody("application/json", JsonNode.Parse(Examples.Take)!)
            .Produces<TakeAnswer>()
            .ProducesValidationProblem()
            .ProducesProblem(StatusCodes.Status413PayloadTooLarge).ProducesProblem(StatusCodes.Status422UnprocessableEntity).ProducesProblem(StatusCodes.Status429TooManyRequests)
            .ProducesProblem(StatusCodes.Status507InsufficientStorage);
        group.MapPost("/frames", ReadFramesAsync)
            .WithSummary("Reads what cameras wrote into the beginnings of picture files.")
            .WithDescription($"A form of files (RFC 7578), at most {FrameHeads.MostFiles} at once, of each its first {FrameHeads.MostBytes >> 10} KiB at most. The frames of the answer are those that POST /api/takes takes. Nothing is kept; what stands beyond the beginning, as in some TIFF files, is not read.")
            .Accepts<IFormFileCollection>("multipart/form-data").ShowsBody("multipart/form-data", new JsonObject { ["files"] = new JsonArray("the first bytes of IMG_0102.CR3", "the first bytes of IMG_0103.CR3") })
            .Produces<FrameHeadsAnswer>()
            .ProducesValidationProblem()
            .ProducesProblem(StatusCodes.Status413PayloadTooLarge).ProducesProblem(StatusCodes.Status415UnsupportedMediaType).ProducesProblem(StatusCodes.Status429TooManyRequests);
    }

    private static async Task<IResult> ReadFramesAsync(HttpContext context, Queues queues, ReadersMemory memory, ServerOptions options)
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit) limit.MaxRequestBodySize = FrameHeads.MostBytesInAll;
        using var room = await queues.Arriving.TakeAsync(context.RequestAborted);
        FrameHeadsAnswer? answer = null;
        await Arrival.WithinAsync(options.LongestArrival, async cancel => answer = await FrameHeads.ReadAsync(context.Request, queues.ReadingFrames, memory, cancel), context.RequestAborted);
        return TypedResults.Ok(answer);
    }

    private static async Task<IResult> PostAsync(
        HttpContext context, DataFolder folder, Queues queues, ServerOptions options, KeptSoundings soundings, ForecastDesk desk, NoteBook notes, IClock time)
    {
        var cancel = context.RequestAborted;
        JsonBody.CheckType(context.Request.ContentType);
        using var arrived = await ArrivedAsync(context, folder, queues, options);
        // Sorting keeps a processor busy, and a take read takes ten times the memory of its text: one after another.
        using var turn = await queues.Takes.TakeAsync(cancel);
        using var body = PlanText.Parse(arrived.ReadAll(), "body");
        if (body.RootElement.ValueKind != JsonValueKind.Object) throw new BadInputException("body", "Must be a JSON object in braces.");
        var faults = new Faults();
        var take = PostedTakes.Read(body.RootElement, await soundings.NamedInAsync(body.RootElement.TryGetProperty("plan", out var plan) ? plan : default, cancel), faults);
        var against = await ForecastOfAsync(take, desk, faults, cancel);
        var clock = take.ReadClock(take.Set?.Plan.Lookout?.Zone ?? against?.Zone, faults);
        if (against is not null && clock is null && !faults.Any) faults.Add("forecast", "Cannot be compared with: nothing tells how far the camera's clock is from UTC. Give frames an offsetFromUtc, or name a knownFrame.");
        faults.ThrowIfAny();
        var answer = await Task.Run(() => Answer(take, clock, against, cancel), cancel);
        return take.Keep ? await KeptAsync(answer, against!, notes, time.GetCurrentInstant(), cancel) : TypedResults.Ok(answer);
    }

    private static async Task<SpooledBody> ArrivedAsync(HttpContext context, DataFolder folder, Queues queues, ServerOptions options)
    {
        using var room = await queues.Arriving.TakeAsync(context.RequestAborted);
        return await SpooledBody.OfAsync(context, folder, MostBytes, options.LongestArrival);
    }

    private static async Task<TakeAgainstForecast?> ForecastOfAsync(ReadTake take, ForecastDesk desk, Faults faults, CancellationToken cancel)
    {
        if (take.Forecast is not { } address)
        {
            if (take.Keep) faults.Add("keep", "Needs a forecast: what was seen is kept beside what had been forecast.");
            return null;
        }
        if (await desk.FindAsync(address, ForecastParts.Bare, cancel) is { } answer) return new TakeAgainstForecast(address, JsonElement.Parse(answer));
        faults.Add("forecast", "Must be the address of a forecast of this service, as its answer gave it; post its plan again to have it anew.");
        return null;
    }

    private static TakeAnswer Answer(ReadTake read, CameraClock? clock, TakeAgainstForecast? against, CancellationToken cancel)
    {
        var take = TakeSorter.Sort(read.Frames, read.Set is { } set ? TakePlan.Of(set) : null, clock, read.Borders, cancel: cancel);
        var answer = TakeAnswer.Of(take, clock, read.Set, []).WithClockError(read.ErrorS is not null);
        return against is null ? answer : against.Compare(answer, take, clock!);
    }

    private static async Task<IResult> KeptAsync(TakeAnswer answer, TakeAgainstForecast against, NoteBook notes, Instant now, CancellationToken cancel)
    {
        if (against.NoteOf(answer, now) is not { } note)
            return TypedResults.Ok(answer with { Cautions = [.. answer.Cautions, "There was nothing to keep: no set is whole or broken for sure, and the light was seen neither to come nor to go near the forecast."] });
        return await notes.AddAsync(note, now, cancel) ? TypedResults.Ok(answer with { Note = note.Id }) : NoteApi.TooMany;
    }
}
