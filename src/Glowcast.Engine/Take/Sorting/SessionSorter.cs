namespace Glowcast.Engine.Take;

/// <summary>Sorts the sessions of one camera, one after another.</summary>
internal sealed class SessionSorter(SessionFacts facts, TakePlan? plan, double overlap, CameraClock? cameraClock)
{
    private const double PlanDeserves = 10;
    private const double PoorlyFilled = 0.8;
    private const int PacesTried = 3;
    private const int LeastFrames = 3;
    private const double LeastShare = 0.25;
    private const long MostStates = 30_000_000;

    private readonly SetRhythm? planned = plan is null ? null : SetRhythm.Of(plan.Clock);
    private readonly List<FoundSet> sets = [];
    private readonly HashSet<int> taken = [];
    private readonly HashSet<int> markers = [];

    public IReadOnlyList<FoundSet> Sets => sets;

    public double LongestStepS => planned is null ? 0 : Math.Max(planned.StepS, planned.RowStepS);

    /// <summary>Frames that have come into no set.</summary>
    public IEnumerable<LooseFrame> Loose => Enumerable.Range(0, facts.Count).Where(frame => !taken.Contains(frame)).Select(LooseOf);

    public void Add(Range range, bool isByHand)
    {
        var (start, count) = range.GetOffsetAndLength(facts.Count);
        if (Fit(range, isByHand) is not { } fit) return;
        var follows = planned is not null && fit.Rhythm.Length == planned.Length && fit.Rhythm.Columns == planned.Columns;
        var found = isByHand ? [Whole(fit.Run, start, count, fit.Rhythm)] : fit.Run.Sets.Where(set => IsSet(set, fit.Rhythm)).ToList();
        taken.UnionWith(found.SelectMany(set => set.Frames).Select(frame => frame.Frame));
        var ofRows = plan is null ? null : RowsUnlikePlan(range, fit.Rhythm.Shots);
        var report = new SetReport(facts, fit.Rhythm, follows ? plan!.Clock : null, plan, overlap, taken, cameraClock, ofRows);
        foreach (var (index, set) in found.Index())
        {
            var window = (index > 0 ? found[index - 1].First : start)..(index + 1 < found.Count ? found[index + 1].Last + 1 : start + count);
            var confidence = isByHand ? 1 : BorderConfidence.Of(facts, window, fit, set);
            var before = index > 0 ? found[index - 1].Last : (int?)null;
            sets.Add(report.Of(set, confidence, before, isByHand));
            if (set.Marker is { } marker) markers.Add(marker);
        }
    }

    private FittedRhythm? Fit(Range range, bool isOneSet)
    {
        var count = range.GetOffsetAndLength(facts.Count).Length;
        if (planned is null || (long)count * planned.Length > MostStates) return RhythmGuess.Best(facts, range);
        var asShot = planned.Shots > 1 && BracketGuess.Of(facts, range, planned.Shots) is { } order ? planned with { ShotStops = order.ShotStops } : planned;
        if (!isOneSet && RowsUnlikePlan(range, asShot.Shots) is not null && RhythmGuess.Best(facts, range) is { } unplanned) return unplanned;
        var byPlan = RhythmFit.Best(facts, range, asShot, StepModes.Of(facts, range, PacesTried), isOneSet);
        if (isOneSet || byPlan.Run.Sets.Sum(set => set.Filled) >= PoorlyFilled * Math.Max(count, byPlan.Run.Sets.Count * planned.Length)) return byPlan;
        return RhythmGuess.Best(facts, range) is { } guess && guess.Score > byPlan.Score + PlanDeserves ? guess : byPlan;
    }

    // A row that is broken is shorter; one that is longer, or most that are shorter by the same, is not the plan's.
    private PlanMismatch? RowsUnlikePlan(Range range, int shots)
    {
        var lengths = JoinedRuns.Lengths(facts, range, shots).ToList();
        if (lengths.Count == 0) return null;
        var columns = plan!.Clock.Columns;
        var usual = lengths.GroupBy(length => length).OrderByDescending(same => same.Count()).ThenByDescending(same => same.Key).First();
        var asPlanned = lengths.Count(length => length == columns);
        return usual.Key != columns && asPlanned < usual.Count() && (usual.Key > columns || (usual.Count() > 1 && asPlanned == 0))
            ? new PlanMismatch(MismatchKind.Columns, facts.Frames[0].Camera, columns, usual.Key)
            : null;
    }

    private static bool IsSet(AlignedSet set, SetRhythm rhythm) => set.Filled >= Math.Max(LeastFrames, LeastShare * rhythm.Length);

    // Frames that the rhythm has no place for are the user's to have put there: they count as shot again.
    private static AlignedSet Whole(AlignedRun run, int start, int count, SetRhythm rhythm)
    {
        var placed = run.Sets.SelectMany(set => set.Frames).ToDictionary(frame => frame.Frame);
        var position = 0;
        var frames = new List<PlacedFrame>();
        for (var frame = start; frame < start + count; frame++)
        {
            var known = placed.TryGetValue(frame, out var there);
            position = known ? there.Position : placed.Count > 0 ? position : Math.Min(frame - start, rhythm.Length - 1);
            frames.Add(known ? there : new PlacedFrame(frame, position, placed.Count > 0));
        }
        return new AlignedSet(null, frames);
    }

    private LooseFrame LooseOf(int frame) => facts.LooksLikeMarker(frame)
        ? new LooseFrame(facts.Frames[frame], LooseKind.Marker, "Dark, or even and unlike its neighbours: a marker frame.")
        : markers.Contains(frame)
        ? new LooseFrame(facts.Frames[frame], LooseKind.Marker, "Just before a set, as long as a marker frame would be: a marker by its time.")
        : new LooseFrame(facts.Frames[frame], LooseKind.Alone, "Neither its time nor its settings make it part of a set.");
}
