namespace Glowcast.Engine.Take;

/// <summary>How much the patterns of any two frames of a session differ, whatever their brightness: 0 for the same view, about 1
/// for a frame and the next one of its row.</summary>
/// <remarks>docs/model.md, Take eq. 1.</remarks>
internal sealed class PatternShares
{
    private const int FarthestBack = 9;

    private readonly SessionFacts facts;
    private readonly Dictionary<long, float> known = [];
    private readonly Lazy<double?> usual;

    public PatternShares(SessionFacts facts)
    {
        this.facts = facts;
        usual = new Lazy<double?>(() => SessionFacts.Median(Enumerable.Range(0, facts.Count).Select(BesideAlike).OfType<double>()));
    }

    /// <summary>Whether any frame can be compared with another.</summary>
    public bool AreKnown => usual.Value is > 0;

    /// <returns>Null where either frame has no preview, or is shot with another lens, another way up or at another exposure.</returns>
    public double? Between(int a, int b)
    {
        if (!AreKnown || !facts.SameGeometry(a, b) || !facts.SameExposure(a, b, 0)) return null;
        if (facts.Frames[a].Glance is not { } first || facts.Frames[b].Glance is not { } second) return null;
        var pair = ((long)Math.Min(a, b) << 32) | (uint)Math.Max(a, b);
        if (!known.TryGetValue(pair, out var share)) known[pair] = share = (float)(first.PatternDistanceTo(second) / usual.Value!.Value);
        return share;
    }

    // From the frame before that is shot the same way: in a bracket that is not the one just before.
    private double? BesideAlike(int frame)
    {
        for (var before = frame - 1; before >= Math.Max(0, frame - FarthestBack); before--)
        {
            if (facts.SameGeometry(before, frame) && facts.SameExposure(before, frame, 0))
                return facts.Frames[before].Glance is { } first && facts.Frames[frame].Glance is { } second ? first.PatternDistanceTo(second) : null;
        }
        return null;
    }
}
