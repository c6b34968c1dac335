namespace Glowcast.Engine.Light;

/// <summary>A change of a weighted sum at a moment.</summary>
/// <param name="Jump">By how much it is more from then on.</param>
/// <param name="Slope">By how much it grows faster from then on [1/s].</param>
internal readonly record struct ShareChange(double Seconds, double Jump, double Slope);

/// <summary>Changes of a sum, put in order of time.</summary>
/// <remarks>Mutable.</remarks>
internal sealed class ShareChanges(int capacity)
{
    private double[] seconds = new double[Math.Max(16, capacity)];
    private ShareChange[] changes = new ShareChange[Math.Max(16, capacity)];

    public int Count { get; private set; }

    public void Add(double atS, double jump, double slope)
    {
        if (Count == seconds.Length)
        {
            Array.Resize(ref seconds, 2 * Count);
            Array.Resize(ref changes, 2 * Count);
        }
        seconds[Count] = atS;
        changes[Count++] = new ShareChange(atS, jump, slope);
    }

    public ReadOnlySpan<ShareChange> InOrder()
    {
        Array.Sort(seconds, changes, 0, Count);
        return changes.AsSpan(0, Count);
    }
}
