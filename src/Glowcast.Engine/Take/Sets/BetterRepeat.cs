namespace Glowcast.Engine.Take;

/// <summary>Chooses among sets that show the same, as their pictures tell; where those were not looked at, among sets of one camera
/// and one shape that follow one another.</summary>
internal static class BetterRepeat
{
    private const double AnHourS = 3600;

    /// <param name="ranked">All sets, the best first.</param>
    public static IReadOnlyList<RepeatChoice> Among(IReadOnlyList<FoundSet> sets, IReadOnlyList<RankedSet> ranked, SameSubject subjects)
    {
        var groups = new List<List<int>>();
        for (var set = 0; set < sets.Count; set++)
        {
            if (groups.Find(group => AreRepeats(sets, group, set, subjects)) is { } known) known.Add(set);
            else groups.Add([set]);
        }
        return [.. groups.Where(group => group.Count > 1).Select(group => Choose(sets, group, ranked))];
    }

    private static bool AreRepeats(IReadOnlyList<FoundSet> sets, List<int> group, int set, SameSubject subjects)
    {
        var (first, last, next) = (sets[group[0]], sets[group[^1]], sets[set]);
        if ((first.Rows, first.Columns) != (next.Rows, next.Columns)) return false;
        return subjects.Are(first, next)
            ?? (group[^1] == set - 1 && last.Camera == next.Camera && last.First.Settings.FocalLength == next.First.Settings.FocalLength
                && (next.First.Taken!.Value.InUtc().ToInstant() - last.Last.Taken!.Value.InUtc().ToInstant()).TotalSeconds < AnHourS);
    }

    private static RepeatChoice Choose(IReadOnlyList<FoundSet> sets, List<int> places, IReadOnlyList<RankedSet> ranked)
    {
        var best = ranked.Where(set => places.Contains(set.Set)).Take(2).ToList();
        var isForLight = best[0].IsInWindow == true && best[1].IsInWindow == false;
        return new RepeatChoice(places, best[0].Set, isForLight ? "It was shot within a window of light, the next best was not." : Why(sets[best[0].Set], sets[best[1].Set]));
    }

    private static string Why(FoundSet better, FoundSet other) =>
        better.Missing.Count < other.Missing.Count ? $"It lacks {better.Missing.Count} frames, the next best {other.Missing.Count}."
        : better.CanBeStitched && !other.CanBeStitched ? "All its frames join; those of the next best do not."
        : better.Wholeness != other.Wholeness ? "Nothing speaks against its being whole; there are doubts about the others."
        : better.Changed.Count < other.Changed.Count ? "Fewer settings changed while it was shot."
        : Math.Floor(3 * DriftOf(better)) < Math.Floor(3 * DriftOf(other)) ? $"Its brightness drifts by {DriftOf(better):0.0} stops, that of the next best by {DriftOf(other):0.0}."
        : better.Pace.FirstToLast < other.Pace.FirstToLast ? "It was shot in the shortest time."
        : "They are alike; it was shot first.";

    // To a tenth: less is within what previews can tell.
    private static double DriftOf(FoundSet set) => Math.Round(Math.Abs(set.Drift?.FirstToLastStops ?? 0), 1);
}
