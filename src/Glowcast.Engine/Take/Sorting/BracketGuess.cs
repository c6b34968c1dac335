namespace Glowcast.Engine.Take;

/// <summary>Finds whether each frame of a session was shot at several exposure times, as a bracket is, and in which order: the same few
/// exposures over and over, quickly one after another.</summary>
internal static class BracketGuess
{
    private const double ChangesOften = 0.5;
    private const double SameStops = 0.3;
    private const double LeastShare = 0.5;
    private const double AsOften = 0.6;
    private static readonly int[] Brackets = [3, 5, 7, 9];

    /// <returns>How much longer each exposure of a frame is than its first [stops], and how soon one follows the other [s].</returns>
    public static (IReadOnlyList<double> ShotStops, double StepS) Of(SessionFacts facts, Range range)
    {
        var (start, count) = range.GetOffsetAndLength(facts.Count);
        var nexts = Enumerable.Range(start + 1, Math.Max(0, count - 1)).ToList();
        if (count < 2 || nexts.Average(i => Math.Abs(Longer(facts, i - 1, i)) > SameStops ? 1.0 : 0) < ChangesOften) return (SetRhythm.OneShot, 0);
        return Brackets.Select(shots => Of(facts, range, shots)).FirstOrDefault(found => found is not null) ?? (SetRhythm.OneShot, 0);
    }

    /// <summary>The order of a bracket of so many exposures.</summary>
    /// <returns>Null where the session has none.</returns>
    public static (IReadOnlyList<double> ShotStops, double StepS)? Of(SessionFacts facts, Range range, int shots)
    {
        var (start, count) = range.GetOffsetAndLength(facts.Count);
        if (count < shots) return null;
        var orders = Enumerable.Range(start, count - shots + 1)
            .Select(first => (First: first, Stops: Enumerable.Range(first, shots).Select(frame => Math.Round(2 * Longer(facts, first, frame)) / 2).ToList()))
            .Where(order => order.Stops.Distinct().Count() == shots)
            .GroupBy(order => string.Join(' ', order.Stops)).Where(same => same.Count() > 1).ToList();
        if (orders.Count == 0 || orders.Max(same => same.Count()) < LeastShare * count / shots) return null;
        // Turned about, the same exposures come as often; those of a frame follow most quickly.
        var often = orders.Where(same => same.Count() >= AsOften * orders.Max(other => other.Count()));
        var found = often.MinBy(same => SessionFacts.Median(same.Select(order => facts.GapS(order.First, order.First + shots - 1))))!.ToList();
        return (
            [.. Enumerable.Range(0, shots).Select(shot => SessionFacts.Median(found.Select(order => Longer(facts, order.First, order.First + shot)))!.Value)],
            SessionFacts.Median(found.Select(order => facts.GapS(order.First, order.First + shots - 1)))!.Value / (shots - 1));
    }

    private static double Longer(SessionFacts facts, int from, int to) => facts.Frames[from].Settings.ExposureStops - facts.Frames[to].Settings.ExposureStops;
}
