namespace Glowcast.Engine.Take;

/// <summary>After how many frames the same views come again in a session: the length of a set, and of its marker, where it is
/// repeated.</summary>
/// <remarks>docs/model.md, Take eq. 12.</remarks>
internal static class RepeatLags
{
    private const int Most = 3;
    private const int Shortest = 2;
    private const int LeastViews = 3;

    /// <returns>The commonest first; none where nothing is repeated.</returns>
    public static IReadOnlyList<int> Of(SessionFacts facts, Range range)
    {
        var (start, count) = range.GetOffsetAndLength(facts.Count);
        var views = new int[count];
        for (var frame = start; frame < start + count; frame++)
            for (var before = frame - Shortest; before >= start; before--)
            {
                if (RepeatLikeness.OfShare(facts.Patterns.Between(before, frame)) <= 0) continue;
                views[frame - before]++;
                break;
            }
        return [.. views.Index().Where(lag => lag.Item >= LeastViews).OrderByDescending(lag => lag.Item).Take(Most).Select(lag => lag.Index)];
    }
}
