namespace Glowcast.Engine.Light;

/// <summary>The shares of several crowds, such as the valley of each column, and of any selection of them together.</summary>
/// <remarks>Their changes are put in order once, so that many selections are quick. Immutable.</remarks>
internal sealed class ShareSums
{
    private readonly IReadOnlyList<double> weights;
    private readonly double lengthS;

    // In order of time.
    private readonly (ShareChange Change, int Member)[] changes;

    /// <param name="members">Null for a crowd of nobody.</param>
    /// <param name="weights">Of each member; 0 for nobody.</param>
    public ShareSums(IReadOnlyList<ShareOverTime?> members, IReadOnlyList<double> weights, double lengthS)
    {
        (this.weights, this.lengthS) = (weights, lengthS);
        changes = [.. members.SelectMany((share, member) => ChangesOf(share, weights[member]).Select(change => (change, member))).OrderBy(entry => entry.change.Seconds)];
    }

    /// <returns>Null where the selection is of nobody.</returns>
    public ShareOverTime? Over(Func<int, bool> member)
    {
        bool[] isIn = [.. Enumerable.Range(0, weights.Count).Select(member)];
        var total = isIn.Zip(weights, (isOne, weight) => isOne ? weight : 0).Sum();
        if (total <= 0) return null;
        var chosen = new List<ShareChange>(changes.Length);
        foreach (var (change, of) in changes)
            if (isIn[of]) chosen.Add(change);
        return ShareOverTime.Of([.. chosen], total, lengthS);
    }

    private ShareChange[] ChangesOf(ShareOverTime? share, double weight)
    {
        var own = new ShareChanges(0);
        share?.AddChanges(own, weight, new Stretch(0, lengthS));
        return own.InOrder().ToArray();
    }
}
