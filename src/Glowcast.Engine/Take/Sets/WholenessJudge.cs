namespace Glowcast.Engine.Take;

/// <summary>Whether a set is whole. Only what is beyond doubt is called so: as many frames as planned is not enough, since one
/// may be missing and another be there twice.</summary>
/// <remarks>docs/model.md, Take eq. 15.</remarks>
/// <param name="inSets">Frames that belong to any set.</param>
internal sealed class WholenessJudge(SessionFacts facts, SetRhythm rhythm, bool followsPlan, bool hasPlan, IReadOnlySet<int> inSets)
{
    private const double SureBorders = 0.9;
    private const double ShortestStep = 0.7;
    private const double LongestStep = 1.5;
    private const double LongestJoined = 3;
    private const double ShortestRowStep = 0.5;
    private const double LongestRowStep = 1.5;
    private const double LongestMarkerStep = 1.6;
    private const double NearSteps = 2.6;
    private const double BadJoin = 3;
    private const double CoarseS = 0.5;

    public (Wholeness Wholeness, IReadOnlyList<string> Reasons) Of(AlignedSet set, int missing, IReadOnlyList<SettingChange> changed, double confidence)
    {
        if (missing > 0)
            return (Wholeness.NotWhole, [missing == 1 ? $"A frame is missing of {rhythm.Length}." : $"{missing} frames are missing of {rhythm.Length}."]);
        List<string> doubts = [.. Doubts(set, changed, confidence)];
        return doubts.Count > 0 ? (Wholeness.Uncertain, doubts) : (Wholeness.Whole, [$"All {rhythm.Length} frames of the plan are there, each in its time."]);
    }

    private IEnumerable<string> Doubts(AlignedSet set, IReadOnlyList<SettingChange> changed, double confidence)
    {
        if (!hasPlan) yield return "Without a plan there is nothing to count its frames against.";
        else if (!followsPlan) yield return "The take does not follow the plan, so there is nothing to count its frames against.";
        if (confidence < SureBorders) yield return $"Its borders are not sure ({confidence:0.00}).";
        if (changed.Count > 0) yield return $"The {changed[0].Setting} changes at {changed[0].At}, from {changed[0].From} to {changed[0].To}.";
        foreach (var doubt in set.Frames.Zip(set.Frames.Skip(1), DoubtBetween).OfType<string>().Take(3)) yield return doubt;
        if (MarkerDoubt(set) is { } marker) yield return marker;
        foreach (var doubt in new[] { set.First - 1, set.Last + 1 }.Select(beside => NeighbourDoubt(set, beside)).OfType<string>()) yield return doubt;
    }

    private string? DoubtBetween(PlacedFrame before, PlacedFrame next)
    {
        var relative = facts.Looks.Difference(before.Frame, next.Frame);
        if (next.IsAgain)
            return relative < 0.3 ? null : $"{Name(next.Frame)} is taken for a second shot of {Name(before.Frame)}, but nothing but its time says so.";
        if (next.Frame != before.Frame + 1) return $"{Name(before.Frame + 1)} lies between two of its frames.";
        if (rhythm.FrameOf(before.Position) == rhythm.FrameOf(next.Position)) return null;
        var isRowStep = rhythm.RowOf(before.Position) != rhythm.RowOf(next.Position);
        var (expectedS, shortest, longest) = isRowStep ? (rhythm.RowStepS, ShortestRowStep, LongestRowStep) : (rhythm.StepS, ShortestStep, LongestStep);
        var gapS = facts.GapS(before.Frame, next.Frame);
        var coarseS = facts.ClockStepS > CoarseS ? CoarseS : 0;
        if (!isRowStep && facts.Looks.Mismatch(before.Frame, next.Frame) > BadJoin) return $"{Name(next.Frame)} does not join on to {Name(before.Frame)}.";
        if (relative < 0.15) return $"{Name(next.Frame)} looks like {Name(before.Frame)} over again.";
        if (gapS < (shortest * expectedS) - coarseS && !(relative > 0.6))
            return $"{Name(next.Frame)} comes {gapS:0.#} s after {Name(before.Frame)}, too soon for a turn of the camera.";
        var limitS = Math.Min(longest * expectedS, isRowStep ? expectedS + (0.75 * rhythm.StepS) : double.MaxValue) + coarseS;
        return gapS > limitS && !(!isRowStep && gapS < LongestJoined * expectedS && facts.Looks.JoinsSurely(next.Frame))
            ? $"{gapS:0.#} s pass between {Name(before.Frame)} and {Name(next.Frame)}: time for another frame."
            : null;
    }

    // The first frame may be missing where the marker is long before the one that looks first.
    private string? MarkerDoubt(AlignedSet set)
    {
        if (set.Marker is not { } marker) return null;
        var gapS = facts.GapS(marker, set.First);
        return gapS > Math.Max(LongestMarkerStep * rhythm.MarkerStepS, rhythm.MarkerStepS + (0.75 * rhythm.StepS))
            ? $"{gapS:0.#} s pass between the marker frame and {Name(set.First)}: time for another frame."
            : null;
    }

    private string? NeighbourDoubt(AlignedSet set, int beside)
    {
        if (beside < 0 || beside >= facts.Count || facts.LooksLikeMarker(beside) || beside == set.Marker || inSets.Contains(beside)) return null;
        var edge = beside < set.First ? set.First : set.Last;
        var isNear = Math.Abs(facts.GapS(beside, edge)) < (NearSteps * rhythm.StepS) + facts.ClockStepS;
        return isNear && facts.SameGeometry(beside, edge) && facts.SameExposure(beside, edge, 0)
            ? $"{Name(beside)} is shot like its frames and near them in time, but no part of it."
            : null;
    }

    private string Name(int frame) => facts.Frames[frame].Name;
}
