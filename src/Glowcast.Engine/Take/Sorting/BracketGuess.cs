namespace Glowcast.Engine.Take;

/// <summary>Finds whether each frame of a session was shot at several exposure times, as a bracket is: as many exposures, all
/// about as common, as it has shots.</summary>
internal static class BracketGuess
{
    private const double ChangesOften = 0.5;
    private const double LongerStops = 0.3;
    private const double LeastShare = 0.08;
    private const double AsCommon = 0.5;
    private static readonly int[] Brackets = [3, 5, 7, 9];

    /// <returns>The exposures of a frame, 1 for no bracket; how much longer each is than the one before [stops], and how soon
    /// it follows [s].</returns>
    public static (int Shots, double StepStops, double StepS) Of(SessionFacts facts, Range range)
    {
        var (start, count) = range.GetOffsetAndLength(facts.Count);
        var nexts = Enumerable.Range(start + 1, Math.Max(0, count - 1)).ToList();
        if (count < 2 || nexts.Average(i => Math.Abs(Change(i)) > LongerStops ? 1.0 : 0) < ChangesOften) return (1, 0, 0);
        var common = Groups([.. Enumerable.Range(start, count).Select(i => facts.Frames[i].Settings.ExposureStops).Order()])
            .FindAll(size => size >= LeastShare * count);
        if (!Brackets.Contains(common.Count) || common.Min() < AsCommon * common.Max()) return (1, 0, 0);
        var longer = nexts.FindAll(i => Change(i) < -LongerStops);
        return (common.Count, -SessionFacts.Median(longer.Select(Change)) ?? 0, longer.Count == 0 ? 0 : longer.Average(i => facts.GapS(i - 1, i)));

        double Change(int i) => facts.Frames[i].Settings.ExposureStops - facts.Frames[i - 1].Settings.ExposureStops;
    }

    private static List<int> Groups(List<double> sorted)
    {
        var sizes = new List<int>();
        for (var i = 0; i < sorted.Count; i++)
        {
            if (i > 0 && sorted[i] - sorted[i - 1] < LongerStops) sizes[^1]++;
            else sizes.Add(1);
        }
        return sizes;
    }
}
