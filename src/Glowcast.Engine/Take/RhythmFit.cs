namespace Glowcast.Engine.Take;

/// <summary>Fits the times of a rhythm to a session: lays it out, measures its steps, and lays it out again.</summary>
/// <remarks>docs/model.md, Take eq. 10.</remarks>
internal static class RhythmFit
{
    private const int Rounds = 3;
    private const int EnoughSteps = 3;
    private const double LeastSpread = 0.08;
    private const double MostSpread = 0.35;
    private const double LeastRowShare = 1.1;

    /// <summary>The likeliest layout, from one of several paces to begin with.</summary>
    /// <param name="stepsS">Steps to begin with; the other times of the rhythm keep their proportion to them.</param>
    public static (SetRhythm Rhythm, AlignedRun Run) Best(SessionFacts facts, Range range, SetRhythm rhythm, IEnumerable<double> stepsS, bool isOneSet = false)
    {
        var fits = stepsS.Select(stepS => At(facts, range, AtPace(rhythm, stepS), isOneSet));
        return fits.Append(At(facts, range, rhythm, isOneSet)).MaxBy(fit => fit.Run.Score);
    }

    private static (SetRhythm Rhythm, AlignedRun Run) At(SessionFacts facts, Range range, SetRhythm rhythm, bool isOneSet)
    {
        var best = (Rhythm: rhythm, Run: Alignment.Best(facts, range, rhythm, isOneSet));
        for (var round = 1; round < Rounds; round++)
        {
            var fitted = Measured(facts, best.Run.Sets, best.Rhythm);
            var run = Alignment.Best(facts, range, fitted, isOneSet);
            if (run.Score <= best.Run.Score) break;
            best = (fitted, run);
        }
        return best;
    }

    private static SetRhythm AtPace(SetRhythm rhythm, double stepS)
    {
        var pace = stepS / rhythm.StepS;
        return rhythm with
        {
            StepS = stepS,
            RowStepS = rhythm.RowStepS * pace,
            MarkerStepS = rhythm.MarkerStepS * Math.Sqrt(pace),
            SetStepS = rhythm.SetStepS * pace,
        };
    }

    private static SetRhythm Measured(SessionFacts facts, IReadOnlyList<AlignedSet> sets, SetRhythm rhythm)
    {
        var times = SetTimes.Of(facts, sets, rhythm);
        var stepS = times.StepsS.Count >= EnoughSteps ? SessionFacts.Median(times.StepsS)!.Value : rhythm.StepS;
        return rhythm with
        {
            StepS = stepS,
            RowStepS = Math.Max(SessionFacts.Median(times.RowStepsS) ?? rhythm.RowStepS, LeastRowShare * stepS),
            ShotStepS = SessionFacts.Median(times.ShotStepsS) ?? rhythm.ShotStepS,
            MarkerStepS = SessionFacts.Median(times.MarkerStepsS) ?? rhythm.MarkerStepS,
            SetStepS = SessionFacts.Median(times.SetStepsS) ?? rhythm.SetStepS,
            StepSpread = times.StepsS.Count > EnoughSteps ? Spread(times.StepsS, stepS) : rhythm.StepSpread,
        };
    }

    // From the median deviation, which a few odd steps do not move.
    private static double Spread(IEnumerable<double> stepsS, double usualS)
    {
        const double sigmaPerDeviation = 1.4826;
        var deviation = SessionFacts.Median(stepsS.Select(stepS => Math.Abs(Math.Log(Math.Max(stepS, 0.01) / usualS))))!.Value;
        return Math.Clamp(sigmaPerDeviation * deviation, LeastSpread, MostSpread);
    }
}
