namespace Glowcast.Engine.Take;

/// <summary>Finds whether each frame of a session was shot at several exposure times, as a bracket is.</summary>
internal static class BracketGuess
{
    private const double Periodic = 0.6;
    private const double ChangesOften = 0.5;
    private static readonly int[] Brackets = [3, 5, 7, 9];

    /// <returns>The exposures of a frame, 1 for no bracket; how much longer each is than the one before [stops], and how soon
    /// it follows [s].</returns>
    public static (int Shots, double StepStops, double StepS) Of(SessionFacts facts, Range range)
    {
        var (start, count) = range.GetOffsetAndLength(facts.Count);
        if (count < 2 || Share(1, same: false) < ChangesOften) return (1, 0, 0);
        var shots = Brackets.FirstOrDefault(shots => count > shots && Share(shots, same: true) >= Periodic, 1);
        if (shots == 1) return (1, 0, 0);
        var longer = Enumerable.Range(start + 1, count - 1).Where(i => Change(i, 1) < -0.2).ToList();
        return (shots, -SessionFacts.Median(longer.Select(i => Change(i, 1))) ?? 0, longer.Count == 0 ? 0 : longer.Average(i => facts.GapS(i - 1, i)));

        double Share(int apart, bool same) =>
            Enumerable.Range(start + apart, count - apart).Average(i => Math.Abs(Change(i, apart)) < 0.2 == same ? 1.0 : 0);

        double Change(int i, int apart) => facts.Frames[i].Settings.ExposureStops - facts.Frames[i - apart].Settings.ExposureStops;
    }
}
