using System.Collections.Concurrent;
using System.Text.Json;
using Glowcast.Server.Answers;
using Glowcast.Server.Problems;
using Glowcast.Server.Store;
using Glowcast.Server.Telemetry;
using NodaTime;

namespace Glowcast.Server.Jobs;

/// <summary>Does the jobs that wait, a few at a time. When the service ends, those in the middle go back to waiting.</summary>
internal sealed partial class JobRunner(ServerOptions options, IJobs jobs, IEnumerable<IJobKind> kinds, IClock clock, ILogger<JobRunner> log) : BackgroundService
{
    // Another service on the same queue may have left something to do.
    private static readonly TimeSpan LookAgain = TimeSpan.FromSeconds(5);

    private readonly ConcurrentDictionary<string, CancellationTokenSource> running = new();
    private readonly SemaphoreSlim news = new(0);

    /// <summary>Queues a job and sets to it as soon as there is a place.</summary>
    /// <exception cref="TooBusyException">Too many wait.</exception>
    public async Task<Job> AddAsync(string kind, string request, CancellationToken cancel)
    {
        var job = await jobs.AddAsync(kind, request, clock.GetCurrentInstant(), cancel) ?? throw new TooBusyException();
        news.Release();
        return job;
    }

    /// <summary>Ends a job that has not ended.</summary>
    public async Task CancelAsync(Job job, CancellationToken cancel)
    {
        if (!await jobs.EndAsync(job.Id, JobState.Cancelled, null, null, clock.GetCurrentInstant(), cancel)) return;
        if (running.TryGetValue(job.Id, out var work)) await work.CancelAsync();
        else KindOf(job).Release(job.Request);
    }

    public override void Dispose()
    {
        news.Dispose();
        base.Dispose();
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        try
        {
            await jobs.RequeueAsync(stoppingToken);
        }
        catch (DamagedException)
        {
            // Nothing can be done: how far it is could not be written down.
            return;
        }
        await Task.WhenAll(Enumerable.Range(0, options.JobsAtOnce).Select(_ => WorkAsync(stoppingToken)));
    }

    private IJobKind KindOf(Job job) => kinds.First(kind => kind.Name == job.Kind);

    private async Task WorkAsync(CancellationToken stopping)
    {
        while (!stopping.IsCancellationRequested)
        {
            try
            {
                if (await jobs.TakeAsync(stopping) is { } job) await DoAsync(job, stopping);
                else await news.WaitAsync(LookAgain, stopping);
            }
            catch (OperationCanceledException) when (stopping.IsCancellationRequested)
            {
                return;
            }
            catch (Exception fault)
            {
                // Such as a full disk: the queue itself cannot be written. It is tried again.
                QueueFailed(log, fault);
                await Task.Delay(LookAgain, stopping).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    private async Task DoAsync(Job job, CancellationToken stopping)
    {
        using var work = CancellationTokenSource.CreateLinkedTokenSource(stopping);
        running[job.Id] = work;
        using var span = Measured.Spans.StartActivity($"job {job.Kind}");
        try
        {
            var kind = KindOf(job);
            var progress = new JobProgress(jobs, job.Id, work);
            var (state, result, problem) = await OutcomeOf(kind, job, progress, work, stopping);
            await jobs.EndAsync(job.Id, state, result, problem, clock.GetCurrentInstant(), stopping);
            kind.Release(job.Request);
            Measured.Jobs.Add(1, new("kind", job.Kind), new("state", state.ToString()));
        }
        finally
        {
            running.TryRemove(job.Id, out _);
        }
    }

    private async Task<(JobState State, byte[]? Result, string? Problem)> OutcomeOf(
        IJobKind kind, Job job, JobProgress progress, CancellationTokenSource work, CancellationToken stopping)
    {
        try
        {
            return (JobState.Done, await Task.Run(() => kind.DoAsync(job.Request, progress, work.Token), work.Token), null);
        }
        catch (OperationCanceledException) when (!stopping.IsCancellationRequested)
        {
            return (JobState.Cancelled, null, null);
        }
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            var problem = FaultsAsProblems.ProblemOf(fault);
            if (problem is null) JobFailed(log, job.Id, job.Kind, fault);
            return (JobState.Failed, null, JsonSerializer.Serialize<object>(problem ?? FaultsAsProblems.Ours, AnswerJson.Options));
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "Job {Id} ({Kind}) failed, and the fault is ours")]
    private static partial void JobFailed(ILogger log, string id, string kind, Exception fault);

    [LoggerMessage(Level = LogLevel.Error, Message = "The queue of jobs cannot be used; it is tried again")]
    private static partial void QueueFailed(ILogger log, Exception fault);
}
