using System.Threading.RateLimiting;

namespace Glowcast.Server.Problems;

/// <summary>Lets a few in at a time and a number wait; the others are told to come again.</summary>
internal sealed class Turns(int atOnce, int waiting) : IDisposable
{
    private readonly ConcurrencyLimiter limiter = new(new ConcurrencyLimiterOptions { PermitLimit = atOnce, QueueLimit = waiting });

    /// <returns>To be disposed when done.</returns>
    /// <exception cref="TooBusyException">Too many wait already.</exception>
    public async Task<IDisposable> TakeAsync(CancellationToken cancel)
    {
        var turn = await limiter.AcquireAsync(1, cancel);
        if (turn.IsAcquired) return turn;
        turn.Dispose();
        throw new TooBusyException();
    }

    public void Dispose() => limiter.Dispose();
}
