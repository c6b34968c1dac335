namespace Glowcast.Engine.Take;

/// <summary>A set in its place among all of an evening.</summary>
/// <param name="Set">Its place in the take, from 0.</param>
/// <param name="IsInWindow">All of it was shot in a window of the forecast; null where there is none to hold it to.</param>
/// <param name="CanBeStitched">All its places have a frame, and every frame joins on.</param>
/// <param name="DriftStops">Of its brightness from the first frame to the last, without its sign; null where unknown.</param>
/// <param name="Changes">Settings that changed.</param>
public sealed record RankedSet(int Set, bool? IsInWindow, bool CanBeStitched, Wholeness Wholeness, double? DriftStops, int Changes)
{
    /// <summary>All sets of a take, the best first: in the window, stitchable, steady.</summary>
    /// <remarks>docs/model.md, Take eq. 25. Brightness that drifts by less than a third of a stop counts as steady.</remarks>
    /// <param name="isInWindow">Of the set at a place in the take.</param>
    public static IReadOnlyList<RankedSet> Of(IReadOnlyList<FoundSet> sets, Func<int, bool?> isInWindow)
    {
        ArgumentNullException.ThrowIfNull(sets);
        ArgumentNullException.ThrowIfNull(isInWindow);
        return [.. sets.Index().Select(set => new RankedSet(set.Index, isInWindow(set.Index), set.Item.CanBeStitched, set.Item.Wholeness, DriftOf(set.Item), set.Item.Changed.Count))
            .OrderBy(set => set.IsInWindow == false).ThenBy(set => sets[set.Set].Missing.Count).ThenBy(set => !set.CanBeStitched).ThenBy(set => set.Wholeness)
            .ThenBy(set => set.Changes).ThenBy(set => Math.Floor(3 * (set.DriftStops ?? 0))).ThenBy(set => sets[set.Set].Pace.FirstToLast)];
    }

    private static double? DriftOf(FoundSet set) => set.Drift is { } drift ? Math.Abs(drift.FirstToLastStops) : null;
}
