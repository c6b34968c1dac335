namespace Glowcast.Engine.Take;

/// <summary>The runs of frames of which each goes on to the side of the one before, all the same way: rows, or parts of them.</summary>
internal static class JoinedRuns
{
    private const int LeastFrames = 3;

    /// <returns>How many frames each has; those of fewer than three are left out.</returns>
    /// <param name="shots">Exposures of each frame.</param>
    public static IEnumerable<int> Lengths(SessionFacts facts, Range range, int shots) => Of(facts, range, shots).Select(run => run.Frames).Where(frames => frames >= LeastFrames);

    /// <returns>First and last frame of each, and how many places they show.</returns>
    public static IEnumerable<(int First, int Last, int Frames)> Of(SessionFacts facts, Range range, int shots)
    {
        var (start, count) = range.GetOffsetAndLength(facts.Count);
        var (first, places, way) = (start, 1, 0);
        for (var frame = start + 1; frame < start + count; frame++)
        {
            var join = facts.Joins.Between(frame - 1, frame);
            if (shots > 1 && !facts.SameExposure(frame - 1, frame, 0) && join.Kind is JoinKind.Nothing or JoinKind.Faint && frame - shots >= first)
            {
                // What is clipped in one exposure is seen in the one of the frame before that is alike.
                join = facts.Joins.Between(frame - shots, frame);
                if (join.Kind == JoinKind.Beside) continue;
            }
            if (join.Kind == JoinKind.Same) continue;
            var turn = facts.Joins.IsStep(join) ? Math.Sign(join.Across) : 0;
            if (turn != 0 && (way == 0 || way == turn))
            {
                (places, way) = (places + 1, turn);
                continue;
            }
            yield return (first, frame - 1, places);
            (first, places, way) = (frame, 1, 0);
        }
        if (count > 0) yield return (first, start + count - 1, places);
    }
}
