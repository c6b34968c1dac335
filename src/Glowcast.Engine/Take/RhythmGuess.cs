namespace Glowcast.Engine.Take;

/// <summary>Finds the rhythm of a session without a plan: rows end where the time between frames is long, and the likeliest of
/// the sets that can be made of such rows is taken.</summary>
/// <remarks>docs/model.md, Take eq. 11.</remarks>
internal static class RhythmGuess
{
    private const double RowEndsAfterSteps = 1.5;
    private const int MostRows = 6;
    private const int MostColumnsTried = 5;
    private const int MostFramesTried = 400;
    private const int LeastColumns = 2;
    private const double UsualSpread = 0.2;
    private const double PerRow = -1;
    private const double UsualMarkerS = 3;

    /// <returns>Null where there are too few frames to find any.</returns>
    public static (SetRhythm Rhythm, AlignedRun Run)? Best(SessionFacts facts, Range range)
    {
        var (start, count) = range.GetOffsetAndLength(facts.Count);
        var tried = start..(start + Math.Min(count, MostFramesTried));
        var bracket = BracketGuess.Of(facts, tried);
        var fits = StepModes.Of(facts, tried, 2)
            .SelectMany(stepS => Candidates(facts, tried, stepS, bracket))
            .Select(rhythm => RhythmFit.Best(facts, tried, rhythm, [])).ToList();
        if (fits.Count == 0) return null;
        var best = fits.MaxBy(fit => fit.Run.Score + RepeatLikeness.Of(facts, fit.Run) + (PerRow * fit.Rhythm.Rows));
        return count <= MostFramesTried ? best : RhythmFit.Best(facts, range, best.Rhythm, []);
    }

    private static IEnumerable<SetRhythm> Candidates(SessionFacts facts, Range range, double stepS, (int Shots, double StepStops, double StepS) bracket)
    {
        var (start, count) = range.GetOffsetAndLength(facts.Count);
        var inside = Enumerable.Range(start + 1, Math.Max(0, count - 1)).ToList();
        var breaks = inside.FindAll(i => facts.GapS(i - 1, i) > RowEndsAfterSteps * stepS);
        var ends = inside.Where(i => breaks.Contains(i) || facts.LooksLikeMarker(i) || facts.LooksLikeMarker(i - 1)).Prepend(start).Append(start + count).ToList();
        var runs = ends.Zip(ends.Skip(1), (from, to) => (to - from + bracket.Shots - 1) / bracket.Shots).ToList();
        var columns = runs.Where(run => run >= LeastColumns).GroupBy(run => run)
            .OrderByDescending(same => same.Count() * same.Key).Select(same => same.Key).Take(MostColumnsTried);
        var gapsS = breaks.Select(i => facts.GapS(i - 1, i)).Order().ToList();
        return
            from column in columns
            from rows in Enumerable.Range(1, Math.Min(MostRows, runs.Count))
            where column * (rows - 1) * bracket.Shots < count
            select new SetRhythm(
                column, rows, bracket.Shots, bracket.StepStops, stepS, Quantile(gapsS, 0.3) ?? (2 * stepS), bracket.StepS,
                Math.Min(UsualMarkerS, 2 * stepS), Quantile(gapsS, rows == 1 ? 0.5 : 0.9) ?? (4 * stepS), UsualSpread);
    }

    private static double? Quantile(List<double> sorted, double share) => sorted.Count == 0 ? null : sorted[(int)(share * (sorted.Count - 1))];
}
