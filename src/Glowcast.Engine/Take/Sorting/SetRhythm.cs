using Glowcast.Engine.Capture;

namespace Glowcast.Engine.Take;

/// <summary>The beat of a set as it is shot: how many exposures there are, and how long it is from one to the next. All
/// times are from opening to opening [s].</summary>
/// <param name="Columns">Frames in a row.</param>
/// <param name="ShotStops">How much longer each exposure of a frame is than its first, in the order they are shot.</param>
/// <param name="StepS">From the last exposure of a frame to the first of the next in its row.</param>
/// <param name="RowStepS">The same, from a row to the next.</param>
/// <param name="ShotStepS">Between the exposures of a frame.</param>
/// <param name="MarkerStepS">From the marker frame to the first exposure.</param>
/// <param name="SetStepS">From the last exposure of a set to the first of its repeat.</param>
/// <param name="StepSpread">How much steps differ among one another: the standard deviation of their logarithm.</param>
internal sealed record SetRhythm(
    int Columns, int Rows, IReadOnlyList<double> ShotStops, double StepS, double RowStepS, double ShotStepS, double MarkerStepS, double SetStepS, double StepSpread)
{
    private const double UsualSpread = 0.25;

    // A marker frame is shot somewhere within the time it takes, mostly early: then the hand goes down.
    private const double MarkerShare = 0.8;

    /// <summary>Of one exposure of each frame.</summary>
    public static IReadOnlyList<double> OneShot { get; } = [0];

    /// <summary>Exposures of each frame.</summary>
    public int Shots => ShotStops.Count;

    /// <summary>Exposures of a set.</summary>
    public int Length => Columns * Rows * Shots;

    /// <summary>As a plan means it.</summary>
    public static SetRhythm Of(SetClock clock)
    {
        var first = clock.Exposures.Where(exposure => exposure.Set == 0).ToList();
        var shots = first.Count(exposure => exposure.Frame == 0);
        var opens = first.Select(exposure => exposure.Start.TotalSeconds).ToList();
        var markerS = clock.FirstOpening.TotalSeconds;
        // Step and row step of the clock are from the first exposure of a frame to the first of the next.
        var bracketS = opens[shots - 1] - opens[0];
        return new SetRhythm(
            clock.Columns, clock.Rows, [.. first.Take(shots).Select(shot => Math.Log2((shot.End - shot.Start) / (first[0].End - first[0].Start)))],
            clock.Step.TotalSeconds - bracketS, clock.RowStep.TotalSeconds - bracketS, shots > 1 ? opens[1] - opens[0] : 0,
            Math.Max(MarkerShare * markerS, 1), (clock.SetStart(1) - clock.SetStart(0) - clock.FirstToLast).TotalSeconds - bracketS, UsualSpread);
    }

    public int FrameOf(int position) => position / Shots;

    public int RowOf(int position) => position / (Shots * Columns);

    /// <summary>One frame stands beside the other in a row.</summary>
    public bool AreNeighbours(int from, int to) => FrameOf(to) == FrameOf(from) + 1 && RowOf(to) == RowOf(from);

    /// <summary>The time expected between two exposures of a set.</summary>
    public double BetweenS(int from, int to)
    {
        var (frames, rows) = (FrameOf(to) - FrameOf(from), RowOf(to) - RowOf(from));
        return ((frames - rows) * StepS) + (rows * RowStepS) + ((to - from - frames) * ShotStepS);
    }

    /// <summary>How much longer the exposure at one place is than at another [stops].</summary>
    public double LongerStops(int from, int to) => ShotStops[to % Shots] - ShotStops[from % Shots];

    /// <summary>How far the time between two exposures may be off: the standard deviation of its logarithm.</summary>
    public double Spread(int from, int to)
    {
        var rows = RowOf(to) - RowOf(from);
        var steps = Math.Max(1, to - from - rows);
        var ofSteps = Math.Max(StepSpread / Math.Sqrt(steps), StepSpread / 3);
        return rows == 0 ? ofSteps : double.Hypot(ofSteps, RowSpread * rows * RowStepS / BetweenS(from, to));
    }

    /// <summary>Row changes differ more than steps do.</summary>
    private double RowSpread => 1.4 * StepSpread;
}
