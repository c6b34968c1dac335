using Glowcast.Engine.Capture;

namespace Glowcast.Engine.Take;

/// <summary>Sorts the frames of a take into sets, by their times, their looks and their settings; with the clock of a plan or
/// without.</summary>
public static class TakeSorter
{
    private const double UsualOverlap = 0.4;

    /// <param name="frames">In any order, of any cameras.</param>
    /// <param name="clock">Of the plan; null to find the rhythm from the take itself.</param>
    /// <param name="overlap">The share of a frame that its neighbour repeats.</param>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static SortedTake Sort(
        IReadOnlyList<ShotFrame> frames, SetClock? clock = null, double overlap = 0.4, HandBorders? borders = null,
        IProgress<double>? progress = null, CancellationToken cancel = default) =>
        Sort(frames, clock is null ? null : new TakePlan(clock, overlap, overlap), cameraClock: null, borders, progress, cancel);

    /// <param name="frames">In any order, of any cameras.</param>
    /// <param name="plan">They were shot by; null to find the rhythm from the take itself.</param>
    /// <param name="cameraClock">Where it is known how wrong it was: the day is then held to the plan's.</param>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static SortedTake Sort(
        IReadOnlyList<ShotFrame> frames, TakePlan? plan, CameraClock? cameraClock, HandBorders? borders = null,
        IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(frames);
        borders ??= HandBorders.None;
        var overlap = plan?.Overlap ?? UsualOverlap;
        var copies = Copies.In(frames);
        var (sets, cautions) = (new List<FoundSet>(), new List<string>());
        var loose = frames.Where(frame => borders.Loose.Contains(frame.Name)).Select(frame => new LooseFrame(frame, LooseKind.Alone, "You took it out.")).ToList();
        loose.AddRange(frames.Where(frame => copies.ContainsKey(frame.Name) && !borders.Loose.Contains(frame.Name)).Select(frame => new LooseFrame(frame, LooseKind.Copy, $"A copy of {copies[frame.Name]}.")));
        var cameras = frames.Where(frame => frame.Taken is not null && !borders.Loose.Contains(frame.Name) && !copies.ContainsKey(frame.Name))
            .GroupBy(frame => frame.Camera).OrderByDescending(camera => camera.Count()).ToList();
        if (cameras.Count > 1) cautions.Add($"The take is of {cameras.Count} cameras; each is sorted by itself.");
        var names = frames.Select(frame => frame.Name).ToHashSet(StringComparer.Ordinal);
        cautions.AddRange(borders.Sets.SelectMany(set => new[] { set.First, set.Last }).Where(name => !names.Contains(name))
            .Select(name => $"A border was put at {name}, which is no frame of the take; that set is sorted as if nothing had been said of it."));
        var inOrder = new List<ShotFrame>();
        foreach (var camera in cameras)
        {
            var (ordered, seconds, caution) = ShotOrder.Of(camera);
            if (caution is not null) cautions.Add(caution);
            var facts = new SessionFacts(ordered, seconds, overlap, cancel);
            var sorter = new SessionSorter(facts, plan, overlap, cameraClock);
            foreach (var (range, isByHand) in Sessions.Of(facts, sorter.LongestStepS, borders))
            {
                cancel.ThrowIfCancellationRequested();
                sorter.Add(range, isByHand);
                progress?.Report((inOrder.Count + range.End.Value) / (double)frames.Count);
            }
            sets.AddRange(sorter.Sets);
            loose.AddRange(sorter.Loose);
            inOrder.AddRange(ordered);
        }
        cautions.InsertRange(0, sets.SelectMany(set => set.Mismatches).GroupBy(mismatch => (mismatch.Kind, mismatch.Camera)).Select(same => TakeWords.Caution(same.First())));
        var withoutTime = frames.Where(frame => frame.Taken is null).Select(frame => frame.Name).ToList();
        var unseen = inOrder.Where(frame => frame.View is null).Select(frame => frame.Name).ToList();
        if (unseen.Count > 0) cautions.Add(TakeWords.Unseen(unseen));
        var sorted = new SortedTake(sets, loose, withoutTime, cautions) { InOrder = inOrder };
        return sorted.Ranked(_ => null);
    }
}
