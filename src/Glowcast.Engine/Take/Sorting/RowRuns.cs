namespace Glowcast.Engine.Take;

/// <summary>The runs of frames without a break in a session: rows, or parts of them.</summary>
/// <remarks>docs/model.md, Take eq. 12. Pictures by another lens, and those that lie otherwise than most, break no run.</remarks>
internal sealed class RowRuns
{
    private const int MostTried = 6;

    private const double RowEndsAfterSteps = 1.5;

    // The second lets a frame be missing in a row, the third another picture be shot in the middle of it.
    private static readonly (double AfterSteps, bool AtOthers)[] RowEnds = [(RowEndsAfterSteps, true), (2.6, true), (RowEndsAfterSteps, false)];

    private readonly SessionFacts facts;
    private readonly List<int> frames;
    private readonly double stepS;
    private readonly int shots;

    /// <param name="stepS">From frame to frame in a row.</param>
    /// <param name="shots">Exposures of a frame.</param>
    public RowRuns(SessionFacts facts, Range range, double stepS, int shots)
    {
        (this.facts, this.stepS, this.shots) = (facts, stepS, shots);
        var (start, count) = range.GetOffsetAndLength(facts.Count);
        var all = Enumerable.Range(start, count).ToList();
        var usual = all.Take(MostTried).MaxBy(frame => all.Count(other => facts.SameGeometry(frame, other)));
        frames = all.FindAll(frame => facts.SameGeometry(usual, frame));
        BreaksS = [.. Enumerable.Range(1, Math.Max(0, frames.Count - 1)).Select(GapS).Where(gapS => gapS > RowEndsAfterSteps * stepS).Order()];
    }

    /// <summary>Times that are too long for a step, the shortest first.</summary>
    public IReadOnlyList<double> BreaksS { get; }

    /// <summary>What sets such runs may be rows of: as long as the commonest of them, or by a frame longer or shorter, where one
    /// is missing or there twice.</summary>
    public IEnumerable<(int Columns, int Rows)> Shapes(int mostRows) =>
        from columns in RowEnds.SelectMany(Commonest).SelectMany(columns => new[] { columns, columns + 1, columns - 1 }).Distinct()
        from rows in Enumerable.Range(1, mostRows)
        select (columns, rows);

    private IEnumerable<int> Commonest((double AfterSteps, bool AtOthers) rowEnd) => Lengths(rowEnd.AfterSteps, rowEnd.AtOthers).GroupBy(length => length)
        .OrderByDescending(same => same.Count() * same.Key).Select(same => same.Key).Take(MostTried);

    // In frames; a time of two steps stands for two frames.
    private IEnumerable<int> Lengths(double endsAfterSteps, bool atOthers)
    {
        var exposures = shots;
        for (var i = 1; i <= frames.Count; i++)
        {
            var steps = i == frames.Count ? double.PositiveInfinity : !atOthers && frames[i] > frames[i - 1] + 1 ? 1 : GapS(i) / stepS;
            var ends = steps > endsAfterSteps || facts.LooksLikeMarker(frames[i]) || facts.LooksLikeMarker(frames[i - 1]);
            if (ends) yield return exposures / shots;
            exposures = ends ? shots : exposures + (steps > RowEndsAfterSteps ? shots * (int)Math.Round(steps) : 1);
        }
    }

    private double GapS(int i) => facts.GapS(frames[i - 1], frames[i]);
}
