namespace Glowcast.Engine.Measures;

/// <summary>How long work is parted.</summary>
internal static class AllProcessors
{
    /// <summary>A worker for each processor and no more: others would only take turns with them, and leave a service none for small questions.</summary>
    public static ParallelOptions Until(CancellationToken cancel = default) => new() { MaxDegreeOfParallelism = Environment.ProcessorCount, CancellationToken = cancel };
}
