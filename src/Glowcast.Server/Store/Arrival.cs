namespace Glowcast.Server.Store;

/// <summary>How long something may take to arrive.</summary>
internal static class Arrival
{
    /// <exception cref="BadHttpRequestException">It takes longer.</exception>
    public static async Task WithinAsync(TimeSpan longest, Func<CancellationToken, Task> receive, CancellationToken cancel)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        limit.CancelAfter(longest);
        try
        {
            await receive(limit.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            throw new BadHttpRequestException($"The body takes longer than {longest.TotalSeconds:0} s to arrive, which is all this service waits for one.", StatusCodes.Status408RequestTimeout);
        }
    }
}
