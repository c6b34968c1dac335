namespace Glowcast.Engine.Take;

/// <summary>Whether a set is whole. Only what is beyond doubt is called so: as many frames as planned is not enough, since one
/// may be missing and another be there twice.</summary>
/// <remarks>docs/model.md, Take eq. 15.</remarks>
/// <param name="inSets">Frames that belong to any set.</param>
/// <param name="mismatches">In what the take is not as the plan has it: none of its sets is then whole by that plan.</param>
internal sealed class WholenessJudge(SessionFacts facts, SetRhythm rhythm, bool followsPlan, bool hasPlan, IReadOnlySet<int> inSets, IReadOnlyList<PlanMismatch> mismatches)
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
    private const double MostJoinsSeen = 0.6;
    private const double UnlikeForSure = 0.45;
    private const int MostSaid = 3;

    /// <param name="joins">Of the set, as its pictures show them.</param>
    public Judged Of(AlignedSet set, SetJoins joins, int missing, IReadOnlyList<SettingChange> changed, double confidence)
    {
        List<string> amiss = [.. mismatches.Select(TakeWords.Of)];
        if (missing > 0)
            return new(Wholeness.NotWhole, [.. amiss, missing == 1 ? $"A frame is missing of {rhythm.Length}." : $"{missing} frames are missing of {rhythm.Length}."]);
        if (!joins.CanBeStitched && IsHoleForSure(joins)) return new(Wholeness.NotWhole, [.. amiss, .. JoinDoubts(joins)]);
        List<string> doubts = [.. amiss, .. Doubts(set, joins, changed, confidence)];
        return doubts.Count > 0
            ? new(Wholeness.Uncertain, doubts) { IsCompleteByCount = doubts is [TakeWords.NoPictures] }
            : new(Wholeness.Whole, [$"All {rhythm.Length} frames of the plan are there, and their pictures join."]);
    }

    // Where most of the joins are seen, one that is not is no fault of the pictures.
    private static bool IsHoleForSure(SetJoins joins) =>
        joins.Side.Count(join => join.IsSeen) >= MostJoinsSeen * joins.Side.Count && joins.All.Any(join => join is { IsHole: true, Join.Likeness: < UnlikeForSure });

    private static List<string> JoinDoubts(SetJoins joins)
    {
        if (joins.All.All(join => !join.IsLooked)) return [TakeWords.NoPictures];
        var broken = joins.All.Where(join => !join.IsSeen).ToList();
        var said = broken.Where(join => !join.BetweenRows || join.IsHole).DefaultIfEmpty(broken.FirstOrDefault()).OfType<FoundJoin>().Take(MostSaid).Select(TakeWords.Of).ToList();
        return said.Count > 0 ? said : [TakeWords.ToAndFro];
    }

    private IEnumerable<string> Doubts(AlignedSet set, SetJoins joins, IReadOnlyList<SettingChange> changed, double confidence)
    {
        if (!hasPlan) yield return "Without a plan there is nothing to count its frames against.";
        else if (!followsPlan) yield return "The take does not follow the plan, so there is nothing to count its frames against.";
        if (confidence < SureBorders) yield return $"Its borders are not sure ({confidence:0.00}).";
        if (changed.Count > 0) yield return $"The {changed[0].Setting} changes at {changed[0].At}, from {changed[0].From} to {changed[0].To}.";
        var seen = joins.All.Where(join => join.IsSeen).Select(join => (join.From.Name, join.To.Name)).ToHashSet();
        foreach (var doubt in set.Frames.Zip(set.Frames.Skip(1)).Where(pair => !IsSeen(seen, pair.First, pair.Second)).Select(pair => DoubtBetween(pair.First, pair.Second, joins.CanBeStitched)).OfType<string>().Take(MostSaid)) yield return doubt;
        if (!joins.CanBeStitched)
        {
            foreach (var doubt in JoinDoubts(joins)) yield return doubt;
            if (MarkerDoubt(set) is { } marker) yield return marker;
        }
        foreach (var doubt in new[] { set.First - 1, set.Last + 1 }.Select(beside => NeighbourDoubt(set, beside)).OfType<string>()) yield return doubt;
    }

    private bool IsSeen(HashSet<(string, string)> seen, PlacedFrame before, PlacedFrame next) =>
        next.Frame == before.Frame + 1 && (seen.Contains((Name(before.Frame), Name(next.Frame))) || (next.IsAgain && facts.Joins.Between(before.Frame, next.Frame).Kind == JoinKind.Same));

    /// <param name="isStitched">All frames join, so that the times between them say nothing.</param>
    private string? DoubtBetween(PlacedFrame before, PlacedFrame next, bool isStitched)
    {
        var relative = facts.Looks.Difference(before.Frame, next.Frame);
        if (next.IsAgain)
            return relative < 0.3 ? null : $"{Name(next.Frame)} is taken for a second shot of {Name(before.Frame)}, but nothing but its time says so.";
        if (next.Frame != before.Frame + 1) return $"{Name(before.Frame + 1)} lies between two of its frames.";
        if (isStitched || rhythm.FrameOf(before.Position) == rhythm.FrameOf(next.Position)) return null;
        var isRowStep = rhythm.RowOf(before.Position) != rhythm.RowOf(next.Position);
        var (expectedS, shortest, longest) = isRowStep ? (rhythm.RowStepS, ShortestRowStep, LongestRowStep) : (rhythm.StepS, ShortestStep, LongestStep);
        var gapS = facts.GapS(before.Frame, next.Frame);
        var coarseS = facts.ClockStepS > CoarseS ? CoarseS : 0;
        var isLooked = facts.Joins.Between(before.Frame, next.Frame).Kind is not (JoinKind.NotLooked or JoinKind.Faint);
        if (!isLooked && !isRowStep && facts.Looks.Mismatch(before.Frame, next.Frame) > BadJoin) return $"{Name(next.Frame)} does not join on to {Name(before.Frame)}.";
        if (!isLooked && relative < 0.15) return $"{Name(next.Frame)} looks like {Name(before.Frame)} over again.";
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
        if (beside < 0 || beside >= facts.Count || facts.LooksLikeMarker(beside) || beside == set.Marker) return null;
        var edge = beside < set.First ? set.First : set.Last;
        // Whether it is part of another set or of none.
        if (SweepGoesOn(set, beside, edge)) return TakeWords.GoesOn(facts.Frames[edge], facts.Frames[beside]);
        if (inSets.Contains(beside) || facts.Joins.Between(beside, edge).Kind is JoinKind.Nothing or JoinKind.Same) return null;
        var isNear = Math.Abs(facts.GapS(beside, edge)) < (NearSteps * rhythm.StepS) + facts.ClockStepS;
        return isNear && facts.SameGeometry(beside, edge) && facts.SameExposure(beside, edge, 0)
            ? $"{Name(beside)} is shot like its frames and near them in time, but no part of it."
            : null;
    }

    // The same way as within the set.
    private bool SweepGoesOn(AlignedSet set, int beside, int edge)
    {
        var join = beside < edge ? facts.Joins.Between(beside, edge) : facts.Joins.Between(edge, beside);
        if (!facts.Joins.IsStep(join)) return false;
        var row = set.Frames.Where(frame => rhythm.RowOf(frame.Position) == rhythm.RowOf(beside < edge ? set.Frames[0].Position : set.Frames[^1].Position)).Select(frame => frame.Frame).ToList();
        var way = row.Zip(row.Skip(1)).Sum(pair => facts.Joins.Between(pair.First, pair.Second) is { Kind: JoinKind.Beside } within ? Math.Sign(within.Across) : 0);
        return way * join.Across >= 0;
    }

    /// <param name="Reasons">A sentence each.</param>
    internal sealed record Judged(Wholeness Wholeness, IReadOnlyList<string> Reasons)
    {
        /// <summary>Nothing speaks against its being whole but that none of its joins could be looked at.</summary>
        public bool IsCompleteByCount { get; init; }
    }

    private string Name(int frame) => facts.Frames[frame].Name;
}
