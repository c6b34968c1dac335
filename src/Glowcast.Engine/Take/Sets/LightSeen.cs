using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>What the direct light did.</summary>
public enum LightChange
{
    /// <summary>It came onto the ridge.</summary>
    FirstLight,

    /// <summary>It left the ridge.</summary>
    LastLight,
}

/// <summary>The moment the direct light came or went, as it was seen.</summary>
/// <param name="Uncertainty">One standard deviation.</param>
/// <param name="Stops">By how much the shared ground became brighter or darker; null where the user typed the moment.</param>
public sealed record LightSeen(LightChange Change, Instant At, Duration Uncertainty, double? Stops)
{
    private const double LeastStops = 1;
    private const double OverOthers = 4;
    private const double AtLeastOthersStops = 0.1;
    private const int MostStepsOfChange = 3;

    /// <summary>From the steps of brightness along the sets of a take; at most one in each set.</summary>
    /// <remarks>docs/model.md, Take eq. 17: up to three neighbouring steps that together make a stop or more, and four times what the
    /// other steps do. The moment is the middle of their time; within that time any is as likely.</remarks>
    public static IReadOnlyList<LightSeen> In(SortedTake take, CameraClock clock)
    {
        ArgumentNullException.ThrowIfNull(take);
        ArgumentNullException.ThrowIfNull(clock);
        return [.. take.Sets.Select(set => InSet(set, clock)).OfType<LightSeen>()];
    }

    private static LightSeen? InSet(FoundSet set, CameraClock clock)
    {
        if (set.Drift is not { Steps: { Count: > MostStepsOfChange * 2 } steps } || clock.At(set.First) is not { } first) return null;
        var (from, count) =
            (from start in Enumerable.Range(0, steps.Count)
             from length in Enumerable.Range(1, Math.Min(MostStepsOfChange, steps.Count - start))
             where length == 1 || steps.Skip(start).Take(length).All(step => Math.Sign(step.Stops) == Math.Sign(steps[start].Stops))
             select (Start: start, Length: length)).MaxBy(run => Math.Abs(Sum(run.Start, run.Length)) - (AtLeastOthersStops * run.Length));
        var stops = Sum(from, count);
        var others = steps.Where((_, i) => i < from || i >= from + count).Select(step => Math.Abs(step.Stops));
        if (Math.Abs(stops) < Math.Max(LeastStops, OverOthers * count * (SessionFacts.Median(others) ?? 0))) return null;
        var end = steps[from + count - 1].Next.AfterFirst;
        var begin = steps[from].Next.AfterFirst - Duration.FromSeconds(steps[from].OverS);
        return new LightSeen(
            stops > 0 ? LightChange.FirstLight : LightChange.LastLight, first + ((begin + end) / 2), Duration.FromSeconds((end - begin).TotalSeconds / Math.Sqrt(12)), stops);

        double Sum(int start, int length) => steps.Skip(start).Take(length).Sum(step => step.Stops);
    }
}

/// <summary>A forecast of first or last light beside what was seen.</summary>
/// <param name="Late">Seen less forecast: positive where the light came or went later than forecast.</param>
/// <param name="Uncertainty">Of what was seen, one standard deviation.</param>
public sealed record LightMiss(LightChange Change, Instant Forecast, Duration Late, Duration Uncertainty)
{
    private static readonly Duration FarthestOff = Duration.FromHours(1);

    /// <returns>Null where no window of the forecast has such an edge within an hour.</returns>
    public static LightMiss? Of(LightSeen seen, IEnumerable<LightWindow> windows) =>
        Of(seen, windows.SelectMany(window => new[] { window.Start, window.End }).Select(edge => (edge.Cause, edge.At)));

    /// <param name="edges">Of the windows of a forecast.</param>
    /// <inheritdoc cref="Of(LightSeen, IEnumerable{LightWindow})"/>
    public static LightMiss? Of(LightSeen seen, IEnumerable<(WindowEdgeCause Cause, Instant At)> edges)
    {
        ArgumentNullException.ThrowIfNull(seen);
        var cause = seen.Change == LightChange.FirstLight ? WindowEdgeCause.RidgeLit : WindowEdgeCause.RidgeShaded;
        var nearest = edges.Where(edge => edge.Cause == cause)
            .Select(edge => new LightMiss(seen.Change, edge.At, seen.At - edge.At, seen.Uncertainty))
            .MinBy(miss => Math.Abs(miss.Late.TotalSeconds));
        return nearest is not null && Math.Abs(nearest.Late.TotalSeconds) <= FarthestOff.TotalSeconds ? nearest : null;
    }
}
