using Glowcast.Engine.Capture;
using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>Says all there is to say of the sets of a session.</summary>
/// <param name="clock">Of the plan, where the rhythm is the plan's; else null.</param>
/// <param name="plan">There may be one, followed or not.</param>
/// <param name="overlap">The share of a frame that its neighbour repeats.</param>
/// <param name="inSets">Frames that belong to any set of the session.</param>
/// <param name="cameraClock">Where it is known how wrong it was.</param>
/// <param name="ofRows">The rows of the session are not as long as the plan has them; null where they are.</param>
internal sealed class SetReport(SessionFacts facts, SetRhythm rhythm, SetClock? clock, TakePlan? plan, double overlap, IReadOnlySet<int> inSets, CameraClock? cameraClock, PlanMismatch? ofRows)
{
    private readonly List<Exposure> planned = clock is null ? [] : [.. clock.Exposures.Where(exposure => exposure.Set == 0)];
    private readonly Dictionary<int, SweepDirection> plannedSweeps = clock is null or { Columns: 1 } ? [] : SweepsOf(clock);

    /// <param name="confidence">Of its borders.</param>
    /// <param name="before">The last frame of the set before it.</param>
    public FoundSet Of(AlignedSet set, double confidence, int? before, bool isByHand)
    {
        var frames = set.Frames.Select(frame => FrameOf(frame, set.First)).ToList();
        var filled = set.Frames.Select(frame => frame.Position).ToHashSet();
        var missing = Enumerable.Range(0, rhythm.Length).Where(position => !filled.Contains(position)).Select(position => MissingAt(position, set)).ToList();
        var changed = LockedSettings.Changes([.. frames.Select(frame => frame.Frame)], rhythm, [.. set.Frames.Select(frame => frame.Position)]);
        var drift = StripDrift.Of(RowsOf(frames), overlap);
        var order = SweptOrder.Of(drift, rhythm.Rows, plannedSweeps);
        var joins = new SetJoins(facts, rhythm, set, position => Place(position).Row);
        List<PlanMismatch> mismatches = plan is null ? [] : [.. Mismatches([.. frames.Select(frame => frame.Frame)], plan, joins)];
        var judged = new WholenessJudge(facts, rhythm, clock is not null, plan is not null, inSets, mismatches).Of(set, joins, missing.Count, changed, confidence);
        return new FoundSet(
            frames[0].Frame.Camera, frames, set.Marker is { } marker ? facts.Frames[marker] : null, rhythm.Rows, rhythm.Columns, missing, changed,
            judged.Wholeness, confidence, [.. new BorderReasons(facts, rhythm).Of(set, before, isByHand), .. judged.Reasons, .. OrderReasons(order)])
        {
            IsByHand = isByHand,
            Drift = drift,
            Order = order,
            Joins = [.. joins.All],
            CanBeStitched = missing.Count == 0 && joins.CanBeStitched,
            IsCompleteByCount = judged.IsCompleteByCount,
            Mismatches = mismatches,
            Pace = PaceOf(frames),
        };
    }

    private IEnumerable<PlanMismatch> Mismatches(IReadOnlyList<ShotFrame> frames, TakePlan plan, SetJoins joins)
    {
        var found = PlanMatch.Of(frames, plan, cameraClock);
        if (ofRows is not null) found = found.Append(ofRows);
        return joins.Side.Count(join => join.IsSeen) > 1 && PlanMatch.OfOverlap(frames[0].Camera, plan, joins.Step) is { } overlap ? found.Append(overlap) : found;
    }

    private IEnumerable<string> OrderReasons(SweptOrder order) => order.Sweeps.Where(sweep => plannedSweeps.TryGetValue(sweep.Row, out var way) && way != sweep.Direction)
        .Select(sweep => $"Row {sweep.Row + 1} was swept {Words(sweep.Direction)}, as its pictures join; the plan has it {Words(plannedSweeps[sweep.Row])}. All frames count, but their places in the row are turned about.");

    private static string Words(SweepDirection direction) => direction == SweepDirection.LeftToRight ? "from left to right" : "from right to left";

    private static Dictionary<int, SweepDirection> SweepsOf(SetClock clock) => clock.Exposures.Where(exposure => exposure.Set == 0).GroupBy(exposure => exposure.Row)
        .ToDictionary(row => row.Key, row => row.First().Column == 0 ? SweepDirection.LeftToRight : SweepDirection.RightToLeft);

    private SetFrame FrameOf(PlacedFrame frame, int first)
    {
        var (row, column, shot) = Place(frame.Position);
        return new SetFrame(facts.Frames[frame.Frame], row, column, shot, frame.IsAgain, Duration.FromSeconds(facts.GapS(first, frame.Frame)));
    }

    private MissingFrame MissingAt(int position, AlignedSet set)
    {
        var (row, column, shot) = Place(position);
        var after = set.Frames.LastOrDefault(frame => frame.Position < position, new PlacedFrame(-1, 0, false)).Frame;
        return new MissingFrame(row, column, shot, after < 0 ? null : facts.Frames[after].Name);
    }

    private (int Row, int Column, int Shot) Place(int position) => planned.Count > 0
        ? (planned[position].Row, planned[position].Column, planned[position].Shot)
        : (rhythm.RowOf(position), rhythm.FrameOf(position) % rhythm.Columns, position % rhythm.Shots);

    private static List<IReadOnlyList<SetFrame>> RowsOf(IEnumerable<SetFrame> frames) =>
        [.. frames.Where(frame => !frame.IsAgain && frame.Shot == 0).GroupBy(frame => frame.Row).Select(row => (IReadOnlyList<SetFrame>)[.. row])];

    private static SetPace PaceOf(List<SetFrame> frames)
    {
        var once = frames.Where(frame => !frame.IsAgain && frame.Shot == 0).ToList();
        var pairs = once.Zip(once.Skip(1)).Select(pair => (pair.First, pair.Second, GapS: (pair.Second.AfterFirst - pair.First.AfterFirst).TotalSeconds)).ToList();
        var side = pairs.Where(pair => pair.First.Row == pair.Second.Row && Math.Abs(pair.First.Column - pair.Second.Column) == 1).Select(pair => pair.GapS).ToList();
        var rows = pairs.Where(pair => pair.First.Row != pair.Second.Row).Select(pair => pair.GapS).ToList();
        var vertical =
            from upper in once
            join lower in once on (upper.Row + 1, upper.Column) equals (lower.Row, lower.Column)
            select Math.Abs((lower.AfterFirst - upper.AfterFirst).TotalSeconds);
        return new SetPace(
            Time(SessionFacts.Median(side)), Time(SessionFacts.Median(rows)), Time(side.Count > 0 ? side.Max() : null),
            Time(vertical.Select(gapS => (double?)gapS).Max()), frames[^1].AfterFirst);

        static Duration? Time(double? seconds) => seconds is { } s ? Duration.FromSeconds(s) : null;
    }
}
