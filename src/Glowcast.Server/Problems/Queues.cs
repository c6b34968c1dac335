namespace Glowcast.Server.Problems;

/// <summary>Where requests wait that take memory or keep a processor busy, apart from forecasts, which have a queue of their own. What arrives lies on the disk
/// while it waits; the next beyond a queue is told to come again.</summary>
internal sealed class Queues : IDisposable
{
    private const int ArrivingAtOnce = 16;
    private const int MostWaiting = 64;

    /// <summary>For bodies of more than a few kilobytes.</summary>
    public Turns Arriving { get; } = new(ArrivingAtOnce, MostWaiting);

    /// <summary>Reading a grid may take as much memory as the largest grid has.</summary>
    public Turns ReadingGrids { get; } = new(1, MostWaiting);

    public Turns Hillshades { get; } = new(1, MostWaiting);

    public Turns Takes { get; } = new(1, MostWaiting);

    public Turns ReadingFrames { get; } = new(1, MostWaiting);

    public void Dispose()
    {
        foreach (var turns in (Turns[])[Arriving, ReadingGrids, Hillshades, Takes, ReadingFrames]) turns.Dispose();
    }
}
