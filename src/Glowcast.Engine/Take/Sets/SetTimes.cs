namespace Glowcast.Engine.Take;

/// <summary>The times measured in a take, where nothing is missing between two frames [s, from opening to opening].</summary>
/// <param name="StepsS">From frame to frame within a row.</param>
/// <param name="RowStepsS">From a row to the next.</param>
/// <param name="ShotStepsS">Between the exposures of a frame.</param>
/// <param name="MarkerStepsS">From a marker frame to the first of its set.</param>
/// <param name="SetStepsS">From the last frame of a set to the next frame whatsoever that opens a set, its marker included.</param>
internal sealed record SetTimes(
    IReadOnlyList<double> StepsS, IReadOnlyList<double> RowStepsS, IReadOnlyList<double> ShotStepsS, IReadOnlyList<double> MarkerStepsS, IReadOnlyList<double> SetStepsS)
{
    public static SetTimes Of(SessionFacts facts, IReadOnlyList<AlignedSet> sets, SetRhythm rhythm)
    {
        var (steps, rowSteps, shotSteps) = (new List<double>(), new List<double>(), new List<double>());
        foreach (var (before, next) in sets.SelectMany(set => set.Frames.Zip(set.Frames.Skip(1))))
        {
            if (next.Frame != before.Frame + 1 || next.Position != before.Position + 1) continue;
            var kind = rhythm.FrameOf(next.Position) == rhythm.FrameOf(before.Position) ? shotSteps
                : rhythm.RowOf(next.Position) == rhythm.RowOf(before.Position) ? steps
                : rowSteps;
            kind.Add(facts.GapS(before.Frame, next.Frame));
        }
        return new SetTimes(
            steps, rowSteps, shotSteps,
            [.. sets.Where(set => set.Marker is { } marker && set.First == marker + 1 && set.Frames[0].Position == 0).Select(set => facts.GapS(set.Marker!.Value, set.First))],
            [.. sets.Zip(sets.Skip(1)).Where(pair => (pair.Second.Marker ?? pair.Second.First) == pair.First.Last + 1).Select(pair => facts.GapS(pair.First.Last, pair.First.Last + 1))]);
    }
}
