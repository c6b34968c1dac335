using System.Net.ServerSentEvents;
using System.Runtime.CompilerServices;
using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Server.Jobs;
using Glowcast.Server.Store;
using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime.Text;

namespace Glowcast.Server.Api;

/// <param name="Share">Done so far, 0 to 1.</param>
/// <param name="Result">Where to get what it made; null until it is done.</param>
/// <param name="Problem">Why it failed, by RFC 9457; null unless it did.</param>
public sealed record JobAnswer(string Id, string Kind, JobState State, double Share, string Queued, string? Ended, string? Result, JsonElement? Problem)
{
    public static JobAnswer Of(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        return new JobAnswer(
            job.Id, job.Kind, job.State, Math.Round(job.Share, 4), InstantPattern.ExtendedIso.Format(job.Queued), job.Ended is { } ended ? InstantPattern.ExtendedIso.Format(ended) : null,
            job.State == JobState.Done ? $"/api/jobs/{job.Id}/result" : null, job.Problem is { } problem ? JsonElement.Parse(problem) : null);
    }
}

internal static class JobApi
{
    private static readonly TimeSpan BetweenLooks = TimeSpan.FromMilliseconds(200);

    public static void MapJobs(this IEndpointRouteBuilder routes)
    {
        var group = routes.MapGroup("/api/jobs").WithTags("Jobs");
        group.MapGet("/", AllAsync).WithSummary("Long work that waits, is being done or was done, the latest first.").Produces<JobAnswer[]>();
        group.MapGet("/{id}", OneAsync).WithSummary("How far a job is.").Produces<JobAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
        group.MapGet("/{id}/events", EventsAsync)
            .WithSummary("How far a job is, as server-sent events, until it ends.")
            .WithDescription("Each event is named for the job's state, and its data is the job as JSON.")
            .Produces(StatusCodes.Status200OK, contentType: "text/event-stream").ProducesProblem(StatusCodes.Status404NotFound);
        group.MapGet("/{id}/result", ResultAsync).WithSummary("What a job made.")
            .Produces<JsonElement>().ProducesProblem(StatusCodes.Status404NotFound).ProducesProblem(StatusCodes.Status409Conflict);
        group.MapDelete("/{id}", DeleteAsync).WithSummary("Cancels a job that has not ended; forgets one that has.")
            .Produces(StatusCodes.Status204NoContent).ProducesValidationProblem().ProducesProblem(StatusCodes.Status412PreconditionFailed).ProducesProblem(StatusCodes.Status404NotFound);
    }

    /// <summary>The answer to a request for long work.</summary>
    public static IResult Accepted(Job job) => TypedResults.Accepted($"/api/jobs/{job.Id}", JobAnswer.Of(job));

    private static async Task<IResult> AllAsync(IJobs jobs, CancellationToken cancel) => ETags.Json((await jobs.AllAsync(cancel)).Select(JobAnswer.Of));

    private static async Task<IResult> OneAsync(string id, IJobs jobs, CancellationToken cancel) =>
        await jobs.FindAsync(id, cancel) is { } job ? ETags.Json(JobAnswer.Of(job)) : NotFound(id);

    private static async Task<IResult> ResultAsync(string id, IJobs jobs, CancellationToken cancel)
    {
        if (await jobs.FindAsync(id, cancel) is not { } job) return NotFound(id);
        return await jobs.ResultAsync(id, cancel) is { } result
            ? ETags.Bytes(result, ETags.JsonType)
            : TypedResults.Problem($"Job '{Shortened.To80(id)}' has made nothing: it is {JsonNamingPolicy.CamelCase.ConvertName(job.State.ToString())}.", statusCode: StatusCodes.Status409Conflict);
    }

    private static async Task<IResult> EventsAsync(string id, IJobs jobs, IHostApplicationLifetime service, CancellationToken cancel) =>
        await jobs.FindAsync(id, cancel) is { } job ? TypedResults.ServerSentEvents(Follow(job, jobs, service.ApplicationStopping, cancel)) : NotFound(id);

    private static async IAsyncEnumerable<SseItem<JobAnswer>> Follow(Job job, IJobs jobs, CancellationToken stopping, [EnumeratorCancellation] CancellationToken cancel)
    {
        using var ended = CancellationTokenSource.CreateLinkedTokenSource(stopping, cancel);
        Job? said = null;
        for (Job? now = job; now is not null; now = await jobs.FindAsync(job.Id, cancel))
        {
            if (now != said) yield return new SseItem<JobAnswer>(JobAnswer.Of(now), JsonNamingPolicy.CamelCase.ConvertName(now.State.ToString()));
            said = now;
            if (now.HasEnded || ended.IsCancellationRequested) yield break;
            await Task.Delay(BetweenLooks, ended.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private static async Task<IResult> DeleteAsync(string id, HttpContext context, IJobs jobs, JobRunner runner, CancellationToken cancel)
    {
        var condition = new WriteCondition(context.Request.Headers);
        if (await jobs.FindAsync(id, cancel) is not { } job) return NotFound(id);
        if (!condition.Allows(ETags.TagOf(JobAnswer.Of(job)))) return WriteCondition.Refused($"job '{id}'");
        if (job.HasEnded) await jobs.DeleteAsync(id, cancel);
        else await runner.CancelAsync(job, cancel);
        return TypedResults.NoContent();
    }

    private static ProblemHttpResult NotFound(string id) => TypedResults.Problem($"There is no job '{Shortened.To80(id)}'.", statusCode: StatusCodes.Status404NotFound);
}
