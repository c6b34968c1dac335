namespace Glowcast.Engine.Take;

/// <summary>The times between frames that come most often in a session: one of them is the step from frame to frame.</summary>
internal static class StepModes
{
    private const double BandWidth = 0.15;
    private const double LongestStepS = 900;
    private const double SeparateBy = 1.5;
    private const int MostFrames = 500;

    /// <param name="most">How many to name at most, the commonest first.</param>
    public static IReadOnlyList<double> Of(SessionFacts facts, Range range, int most)
    {
        var (start, count) = range.GetOffsetAndLength(facts.Count);
        var logs = Enumerable.Range(start + 1, Math.Max(0, Math.Min(count, MostFrames) - 1))
            .Select(i => Math.Max(facts.GapS(i - 1, i), facts.ClockStepS / 3))
            .Where(gapS => gapS < LongestStepS)
            .Select(gapS => Math.Log(gapS)).ToList();
        var modes = new List<double>();
        foreach (var log in logs.OrderByDescending(log => logs.Sum(other => Math.Exp(-(log - other) * (log - other) / (2 * BandWidth * BandWidth)))))
        {
            if (modes.Count == most) break;
            var stepS = Math.Exp(log);
            if (modes.TrueForAll(mode => stepS > mode * SeparateBy || stepS < mode / SeparateBy)) modes.Add(stepS);
        }
        return modes;
    }
}
