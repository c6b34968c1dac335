namespace Glowcast.Engine.Take;

/// <summary>A rhythm and the layout of a session by it.</summary>
/// <param name="Score">The logarithm of how likely the times, the settings and the pictures are, all together.</param>
/// <param name="Seen">What the places of the set were taken to show when it was laid out; null for nothing.</param>
internal sealed record FittedRhythm(SetRhythm Rhythm, AlignedRun Run, double Score, SeenPlaces? Seen = null);

/// <summary>Fits the times of a rhythm to a session: lays it out, measures its steps, and lays it out again; then learns from all
/// its sets what each place of the set shows, and lays it out once more.</summary>
/// <remarks>docs/model.md, Take eq. 10 and 11.</remarks>
internal static class RhythmFit
{
    private const int Rounds = 3;
    private const int EnoughSteps = 3;
    private const double LeastSpread = 0.08;
    private const double MostSpread = 0.35;
    private const double LeastRowShare = 1.1;

    /// <summary>The likeliest layout, from one of several paces to begin with.</summary>
    /// <param name="stepsS">Steps to begin with; the other times of the rhythm keep their proportion to them.</param>
    public static FittedRhythm Best(SessionFacts facts, Range range, SetRhythm rhythm, IEnumerable<double> stepsS, bool isOneSet = false)
    {
        var fits = stepsS.Select(stepS => ByTimes(facts, range, AtPace(rhythm, stepS), isOneSet));
        var best = fits.Append(ByTimes(facts, range, rhythm, isOneSet)).MaxBy(fit => fit.Score)!;
        return isOneSet ? best : ByPictures(facts, range, best);
    }

    /// <summary>By the times of the rhythm as they are.</summary>
    public static FittedRhythm Once(SessionFacts facts, Range range, SetRhythm rhythm, bool isOneSet = false)
    {
        var run = Alignment.Best(facts, range, rhythm, isOneSet);
        return new FittedRhythm(rhythm, run, run.Score + RepeatLikeness.Of(facts, run));
    }

    /// <summary>By times and settings alone.</summary>
    public static FittedRhythm ByTimes(SessionFacts facts, Range range, SetRhythm rhythm, bool isOneSet = false)
    {
        var best = (Rhythm: rhythm, Run: Alignment.Best(facts, range, rhythm, isOneSet));
        for (var round = 1; round < Rounds; round++)
        {
            var fitted = Measured(facts, best.Run.Sets, best.Rhythm);
            var run = Alignment.Best(facts, range, fitted, isOneSet);
            if (run.Score <= best.Run.Score) break;
            best = (fitted, run);
        }
        return new FittedRhythm(best.Rhythm, best.Run, best.Run.Score + RepeatLikeness.Of(facts, best.Run));
    }

    /// <summary>From a layout by times to one by what its places show as well; the earlier one where that is no likelier.</summary>
    public static FittedRhythm ByPictures(SessionFacts facts, Range range, FittedRhythm fit)
    {
        for (var round = 0; round < Rounds && facts.Patterns.AreKnown; round++)
        {
            var next = Enum.GetValues<SeenFrom>().Select(from => Seen(facts, range, fit, from)).MaxBy(next => next.Score)!;
            if (next.Score <= fit.Score) break;
            fit = next;
        }
        return fit;
    }

    private static FittedRhythm Seen(SessionFacts facts, Range range, FittedRhythm fit, SeenFrom from)
    {
        var seen = new SeenPlaces(facts, fit.Run, fit.Rhythm.Length, from);
        var rhythm = Measured(facts, fit.Run.Sets, fit.Rhythm);
        var run = Alignment.Best(facts, range, rhythm, seen: seen);
        // What the places show is counted once for each frame, and not from both of two sets that are alike.
        return new FittedRhythm(rhythm, run, run.Score - seen.Odds(run) + RepeatLikeness.Of(facts, run), seen);
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
            StepSpread = times.StepsS.Count > EnoughSteps ? Spread([.. times.StepsS.Select(each => Math.Abs(Math.Log(Math.Max(each, 0.01) / stepS)))], ExpectedTime.ClockStepSpread * facts.ClockStepS / stepS) : rhythm.StepSpread,
        };
    }

    // From the deviation that four of five steps keep to, which a few odd ones do not move; the clock's own part taken out.
    private static double Spread(List<double> deviations, double clockShare)
    {
        const double keptTo = 0.8, sigmaPerDeviation = 1 / 1.2816;
        deviations.Sort();
        var seen = sigmaPerDeviation * deviations[(int)(keptTo * (deviations.Count - 1))];
        return Math.Clamp(Math.Sqrt(Math.Max(0, (seen * seen) - (clockShare * clockShare))), LeastSpread, MostSpread);
    }
}
