using System.Text.Json.Nodes;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using Glowcast.Server.Answers;
using Glowcast.Server.Kept;
using Glowcast.Server.Takes;
using Microsoft.AspNetCore.Http.Features;

namespace Glowcast.Server.Api;

internal static class TakesApi
{
    private const long MostBytes = 32 << 20;

    // Sorting keeps a processor busy: one take after another.
    private static readonly SemaphoreSlim Turn = new(1);

    public static void MapTakes(this IEndpointRouteBuilder routes) => routes.MapPost("/api/takes", PostAsync)
        .WithTags("Takes")
        .WithSummary("Sorts a take into sets and says which are whole.")
        .WithDescription($"At most {PostedTakes.MostFrames} frames, by what their files say. Nothing is kept.")
        .Accepts<PostedTake>("application/json").ShowsBody("application/json", JsonNode.Parse(Examples.Take)!)
        .Produces<TakeAnswer>()
        .ProducesValidationProblem()
        .ProducesProblem(StatusCodes.Status413PayloadTooLarge);

    private static async Task<IResult> PostAsync(HttpContext context, KeptSoundings soundings, CancellationToken cancel)
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit) limit.MaxRequestBodySize = MostBytes;
        var posted = await PostedTakes.ReadAsync(context.Request, cancel);
        var faults = new Faults();
        var set = posted.ReadPlan(await soundings.NamedInAsync(posted.Plan ?? default, cancel), faults);
        var frames = posted.ReadFrames(faults);
        faults.ThrowIfAny();
        await Turn.WaitAsync(cancel);
        try
        {
            return TypedResults.Ok(await Task.Run(() => Answer(set, frames, posted.HandBorders, cancel), cancel));
        }
        finally
        {
            Turn.Release();
        }
    }

    private static TakeAnswer Answer(PlannedSet? set, IReadOnlyList<ShotFrame> frames, HandBorders borders, CancellationToken cancel)
    {
        var take = set is null
            ? TakeSorter.Sort(frames, borders: borders, cancel: cancel)
            : TakeSorter.Sort(frames, set.Clock, set.Layout.Settings.Overlap, borders, cancel: cancel);
        var own = set is null ? null : OwnTimes.Of(take, set.Layout.Settings.Times, set.Clock.Order, set.Layout.Settings.Bracket);
        return TakeAnswer.Of(take, CameraClock.Of(frames, set?.Plan.Lookout?.Zone), own, []);
    }
}
