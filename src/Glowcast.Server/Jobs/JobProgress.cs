using Glowcast.Server.Store;

namespace Glowcast.Server.Jobs;

/// <summary>Writes down how far a job is, now and then, and learns so whether it was cancelled elsewhere.</summary>
internal sealed class JobProgress(IJobs jobs, string id, CancellationTokenSource work) : IProgress<double>
{
    private const long BetweenMs = 250;

    private long nextMs;

    public void Report(double value)
    {
        var now = Environment.TickCount64;
        var next = Interlocked.Read(ref nextMs);
        if (now < next || Interlocked.CompareExchange(ref nextMs, now + BetweenMs, next) != next) return;
        _ = WriteAsync(Math.Clamp(value, 0, 1));
    }

    private async Task WriteAsync(double share)
    {
        try
        {
            if (!await jobs.ReportAsync(id, share, CancellationToken.None)) await work.CancelAsync();
        }
        catch (Exception unwritten) when (unwritten is Microsoft.Data.Sqlite.SqliteException or ObjectDisposedException)
        {
            // Progress that cannot be written is no reason to stop; the end of the job is written in any case, or fails loudly.
        }
    }
}
