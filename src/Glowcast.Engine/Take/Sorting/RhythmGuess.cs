namespace Glowcast.Engine.Take;

/// <summary>Finds the rhythm of a session without a plan: rows end where the time between frames is long, and the likeliest of
/// the sets that can be made of such rows is taken.</summary>
/// <remarks>docs/model.md, Take eq. 12.</remarks>
internal static class RhythmGuess
{
    private const int MostRows = 6;
    private const int MostFramesTried = 400;
    private const int MostFitted = 16;
    private const int MostCompared = 8;
    private const int LeastColumns = 2;
    private const int MostRunLengths = 3;
    private const double UsualSpread = 0.2;
    private const double PerRow = -1;
    private const double UsualMarkerS = 3;

    /// <returns>Null where there are too few frames to find any.</returns>
    public static FittedRhythm? Best(SessionFacts facts, Range range)
    {
        var (start, count) = range.GetOffsetAndLength(facts.Count);
        var tried = start..(start + Math.Min(count, MostFramesTried));
        var bracket = BracketGuess.Of(facts, tried);
        // Many are looked at once, some fitted, a few compared by all there is.
        var likely = StepModes.Of(facts, tried, 2)
            .SelectMany(stepS => Candidates(facts, tried, stepS, bracket))
            .Select(rhythm => RhythmFit.Once(facts, tried, rhythm))
            .GroupBy(fit => (fit.Rhythm.Columns, fit.Rhythm.Rows)).Select(fits => fits.MaxBy(Worth)!)
            .OrderByDescending(Worth).Take(MostFitted).Select(fit => RhythmFit.ByTimes(facts, tried, fit.Rhythm))
            .OrderByDescending(Worth).Take(MostCompared).Select(fit => RhythmFit.ByPictures(facts, tried, fit)).ToList();
        if (likely.Count == 0) return null;
        var best = Climb(facts, tried, likely.MaxBy(Worth)!);
        return count <= MostFramesTried ? best : RhythmFit.Best(facts, range, best.Rhythm, []);
    }

    // Rows longer or shorter by one, with the times of the best: as long as that is better still.
    private static FittedRhythm Climb(SessionFacts facts, Range range, FittedRhythm best)
    {
        while (true)
        {
            var beside = new[] { 1, -1 }.Select(more => best.Rhythm with { Columns = best.Rhythm.Columns + more })
                .Where(rhythm => rhythm.Columns >= LeastColumns).Select(rhythm => RhythmFit.Best(facts, range, rhythm, [])).MaxBy(Worth)!;
            if (Worth(beside) <= Worth(best)) return best;
            best = beside;
        }
    }

    private static double Worth(FittedRhythm fit) => fit.Score + (PerRow * fit.Rhythm.Rows);

    private static IEnumerable<SetRhythm> Candidates(SessionFacts facts, Range range, double stepS, (IReadOnlyList<double> ShotStops, double StepS) bracket)
    {
        var count = range.GetOffsetAndLength(facts.Count).Length;
        var runs = new RowRuns(facts, range, stepS, bracket.ShotStops.Count);
        var gapsS = runs.BreaksS;
        return
            from shape in ByJoins(facts, range, bracket.ShotStops.Count).Concat(runs.Shapes(MostRows)).Concat(ByRepeats(facts, range, bracket.ShotStops.Count)).Distinct()
            where shape.Columns >= LeastColumns && shape.Columns * (shape.Rows - 1) * bracket.ShotStops.Count < count
            from rowStepS in shape.Rows == 1 ? [Quantile(gapsS, 0.3)] : new[] { Quantile(gapsS, 0.3), Quantile(gapsS, 0.7) }.Distinct()
            select new SetRhythm(
                shape.Columns, shape.Rows, bracket.ShotStops, stepS, rowStepS ?? (2 * stepS), bracket.StepS,
                Math.Min(UsualMarkerS, 2 * stepS), Quantile(gapsS, shape.Rows == 1 ? 0.5 : 0.9) ?? (4 * stepS), UsualSpread);
    }

    // Rows are as long as the sweeps whose pictures join on.
    private static IEnumerable<(int Columns, int Rows)> ByJoins(SessionFacts facts, Range range, int shots) =>
        from columns in JoinedRuns.Lengths(facts, range, shots).GroupBy(length => length).OrderByDescending(same => same.Count() * same.Key).Take(MostRunLengths).Select(same => same.Key)
        from rows in Enumerable.Range(1, MostRows)
        select (columns, rows);

    // Sets are as long as it takes until the same views come again.
    private static IEnumerable<(int Columns, int Rows)> ByRepeats(SessionFacts facts, Range range, int shots) =>
        from frames in RepeatLags.Of(facts, range).SelectMany(lag => new[] { lag, lag - 1 }).Where(exposures => exposures > 0 && exposures % shots == 0).Select(exposures => exposures / shots).Distinct()
        from rows in Enumerable.Range(1, MostRows)
        where frames % rows == 0 && frames / rows >= LeastColumns
        select (frames / rows, rows);

    private static double? Quantile(IReadOnlyList<double> sorted, double share) => sorted.Count == 0 ? null : sorted[(int)(share * (sorted.Count - 1))];
}
