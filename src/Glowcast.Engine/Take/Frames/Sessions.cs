namespace Glowcast.Engine.Take;

/// <summary>Cuts the frames of a camera where no set can go on: at a long pause in which the sweep does not go on, and where the user put a border.</summary>
internal static class Sessions
{
    private const double SetsEndAfterS = 300;

    /// <param name="longestStepS">The longest time the rhythm has between two frames.</param>
    public static IEnumerable<(Range Frames, bool IsByHand)> Of(SessionFacts facts, double longestStepS, HandBorders borders)
    {
        var spans = Spans(facts, borders);
        var start = 0;
        for (var frame = 0; frame <= facts.Count; frame++)
        {
            if (spans.TryGetValue(frame, out var last))
            {
                if (start < frame) yield return (start..frame, false);
                yield return (frame..(last + 1), true);
                (start, frame) = (last + 1, last);
            }
            else if (start < frame && (frame == facts.Count || (facts.GapS(frame - 1, frame) > Math.Max(SetsEndAfterS, 4 * longestStepS) && !facts.Joins.GoesOn(frame - 1, frame))))
            {
                yield return (start..frame, false);
                start = frame;
            }
        }
    }

    private static Dictionary<int, int> Spans(SessionFacts facts, HandBorders borders)
    {
        var places = facts.Frames.Index().ToDictionary(frame => frame.Item.Name, frame => frame.Index);
        var spans = new Dictionary<int, int>();
        foreach (var (first, last) in borders.Sets)
        {
            if (places.TryGetValue(first, out var from) && places.TryGetValue(last, out var to) && from <= to && !spans.Any(span => from <= span.Value && to >= span.Key))
                spans[from] = to;
        }
        return spans;
    }
}
