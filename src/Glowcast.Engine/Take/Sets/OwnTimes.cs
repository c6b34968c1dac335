using Glowcast.Engine.Capture;
using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>The user's own times for the steps of a set, measured from a take, to plan the next one with.</summary>
/// <remarks>docs/model.md, Take eq. 16. A camera tells when it exposed, not what was done between; what cannot be parted keeps
/// the plan's value, and the rest is laid to the movement named here.</remarks>
/// <param name="Rotate">Step − settle − release delay − exposure − write.</param>
/// <param name="RowChange">Row step less the same, and less the way back of one-way rows.</param>
/// <param name="Marker">From marker frame to first frame.</param>
/// <param name="RepeatGap">From the end of a set to the marker of the next, or to its first frame where there is none.</param>
/// <param name="Steps">How many steps it was measured from.</param>
/// <param name="StepSpread">Of single steps, one standard deviation by the median deviation.</param>
public sealed record OwnTimes(Duration? Rotate, Duration? RowChange, Duration? Marker, Duration? RepeatGap, int Steps, Duration StepSpread)
{
    private const int EnoughSteps = 5;
    private const double SigmaPerDeviation = 1.4826;

    private static readonly Duration LongestPause = Duration.FromMinutes(2);

    /// <param name="planned">The times of the plan.</param>
    /// <returns>Null where there are too few steps to tell.</returns>
    public static OwnTimes? Of(SortedTake take, StepTimes planned, ShootingOrder order, Bracket bracket)
    {
        ArgumentNullException.ThrowIfNull(take);
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(bracket);
        var gaps = take.Sets.SelectMany(Gaps).ToList();
        var steps = gaps.FindAll(gap => gap is { IsRowStep: false }).ConvertAll(gap => gap.Length.TotalSeconds);
        if (steps.Count < EnoughSteps) return null;
        var stepS = SessionFacts.Median(steps)!.Value;
        // From the first exposure of a frame to the first of the next.
        var exposing = bracket.ShutterTimes(planned.Exposure).Aggregate(Duration.Zero, (sum, open) => sum + open + planned.Write);
        var fixedPart = planned.Settle + planned.ReleaseDelay + exposing;
        var rowStep = Median(gaps.Where(gap => gap.IsRowStep).Select(gap => gap.Length));
        var back = order.Rows == RowOrder.OneWay ? planned.Return : Duration.Zero;
        return new OwnTimes(
            NotNegative(Duration.FromSeconds(stepS) - fixedPart), NotNegative(rowStep - fixedPart - back),
            Median(take.Sets.Where(set => set.Marker is not null && set.Missing.All(missing => missing.After is not null)).Select(set => Between(set.Marker!, set.First))),
            NotNegative(Median(take.Sets.Zip(take.Sets.Skip(1)).Where(pair => pair.First.Camera == pair.Second.Camera)
                .Select(pair => Between(pair.First.Last, pair.Second.Marker ?? pair.Second.First)).Where(gap => gap > Duration.Zero && gap < LongestPause)) - planned.Exposure - planned.Write),
            steps.Count, Duration.FromSeconds(SigmaPerDeviation * SessionFacts.Median(steps.Select(step => Math.Abs(step - stepS)))!.Value));
    }

    private static IEnumerable<(bool IsRowStep, Duration Length)> Gaps(FoundSet set)
    {
        var firsts = set.Frames.Where(frame => frame.Shot == 0).ToList();
        return
            from pair in firsts.Zip(firsts.Skip(1))
            where !pair.Second.IsAgain && !pair.First.IsAgain
            let isRowStep = pair.First.Row != pair.Second.Row
            where isRowStep ? Math.Abs(pair.First.Row - pair.Second.Row) == 1 && set.Missing.Count == 0 : Math.Abs(pair.First.Column - pair.Second.Column) == 1
            select (isRowStep, pair.Second.AfterFirst - pair.First.AfterFirst);
    }

    private static Duration Between(ShotFrame before, ShotFrame next) => next.Taken!.Value.InUtc().ToInstant() - before.Taken!.Value.InUtc().ToInstant();

    private static Duration? Median(IEnumerable<Duration> times) => SessionFacts.Median(times.Select(time => time.TotalSeconds)) is { } seconds ? Duration.FromSeconds(seconds) : null;

    private static Duration? NotNegative(Duration? time) => time is { } t ? Duration.Max(t, Duration.Zero) : null;
}
