using NodaTime;

namespace Glowcast.Server.Store;

/// <summary>Long work that waits, is done, or was done. It outlives the service: what was being done when one ended waits again.</summary>
public interface IJobs
{
    /// <summary>Those that are kept, the latest first.</summary>
    Task<IReadOnlyList<Job>> AllAsync(CancellationToken cancel);

    Task<Job?> FindAsync(string id, CancellationToken cancel);

    /// <summary>What a finished job made; null while there is nothing.</summary>
    Task<byte[]?> ResultAsync(string id, CancellationToken cancel);

    /// <summary>Queues a job for good: when this returns it has reached the disk.</summary>
    /// <param name="request">What the kind of job needs to do it.</param>
    /// <returns>Null where too many wait.</returns>
    Task<Job?> AddAsync(string kind, string request, Instant now, CancellationToken cancel);

    /// <summary>Takes the job that has waited longest, to do it; null where none waits.</summary>
    Task<Job?> TakeAsync(CancellationToken cancel);

    /// <param name="share">Done so far, 0 to 1.</param>
    /// <returns>False where it was cancelled meanwhile.</returns>
    Task<bool> ReportAsync(string id, double share, CancellationToken cancel);

    /// <summary>Ends a job, unless it has ended before.</summary>
    /// <param name="problem">By RFC 9457, for one that failed.</param>
    /// <returns>Whether it had not.</returns>
    Task<bool> EndAsync(string id, JobState state, byte[]? result, string? problem, Instant now, CancellationToken cancel);

    /// <summary>Lets all that were being done wait again.</summary>
    Task RequeueAsync(CancellationToken cancel);

    /// <summary>Forgets a job that has ended.</summary>
    Task<bool> DeleteAsync(string id, CancellationToken cancel);
}

public enum JobState
{
    Queued,
    Running,
    Done,
    Failed,
    Cancelled,
}

/// <param name="Kind">Such as "season".</param>
/// <param name="Request">What the kind of job needs to do it.</param>
/// <param name="Share">Done so far, 0 to 1.</param>
/// <param name="Problem">Why it failed, by RFC 9457.</param>
public sealed record Job(string Id, string Kind, string Request, JobState State, double Share, string? Problem, Instant Queued, Instant? Ended)
{
    public bool HasEnded => State is JobState.Done or JobState.Failed or JobState.Cancelled;
}
