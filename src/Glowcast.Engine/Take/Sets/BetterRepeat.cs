namespace Glowcast.Engine.Take;

/// <summary>Chooses among sets that show the same: those of one camera and one shape that follow one another.</summary>
internal static class BetterRepeat
{
    private const double AnHourS = 3600;

    public static IReadOnlyList<RepeatChoice> Among(IReadOnlyList<FoundSet> sets)
    {
        var choices = new List<RepeatChoice>();
        for (var first = 0; first < sets.Count;)
        {
            var next = first + 1;
            while (next < sets.Count && AreRepeats(sets[next - 1], sets[next])) next++;
            if (next - first > 1) choices.Add(Choose(sets, [.. Enumerable.Range(first, next - first)]));
            first = next;
        }
        return choices;
    }

    private static bool AreRepeats(FoundSet a, FoundSet b) =>
        a.Camera == b.Camera && (a.Rows, a.Columns) == (b.Rows, b.Columns)
        && a.First.Settings.FocalLength == b.First.Settings.FocalLength
        && (b.First.Taken!.Value.InUtc().ToInstant() - a.Last.Taken!.Value.InUtc().ToInstant()).TotalSeconds < AnHourS;

    private static RepeatChoice Choose(IReadOnlyList<FoundSet> sets, int[] places)
    {
        var ranked = places.OrderBy(place => sets[place].Wholeness).ThenBy(place => sets[place].Missing.Count)
            .ThenBy(place => sets[place].Changed.Count).ThenBy(place => DriftOf(sets[place])).ThenBy(place => sets[place].Pace.FirstToLast).ToList();
        return new RepeatChoice(places, ranked[0], Why(sets[ranked[0]], sets[ranked[1]]));
    }

    private static string Why(FoundSet better, FoundSet other) =>
        better.Missing.Count < other.Missing.Count ? $"It lacks {better.Missing.Count} frames, the next best {other.Missing.Count}."
        : better.Wholeness != other.Wholeness ? "Nothing speaks against its being whole; there are doubts about the others."
        : better.Changed.Count < other.Changed.Count ? "Fewer settings changed while it was shot."
        : DriftOf(better) < DriftOf(other) ? $"Its brightness drifts by {DriftOf(better):0.0} stops, that of the next best by {DriftOf(other):0.0}."
        : better.Pace.FirstToLast < other.Pace.FirstToLast ? "It was shot in the shortest time."
        : "They are alike; it was shot first.";

    // To a tenth: less is within what previews can tell.
    private static double DriftOf(FoundSet set) => Math.Round(Math.Abs(set.Drift?.FirstToLastStops ?? 0), 1);
}
