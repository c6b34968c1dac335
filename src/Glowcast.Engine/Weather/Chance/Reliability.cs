namespace Glowcast.Engine.Weather;

/// <summary>A chance that was forecast, and whether it happened.</summary>
public readonly record struct Outcome(double Chance, bool Happened);

/// <summary>How good forecast chances were: Brier's score in its three parts (A. H. Murphy, J. Appl. Meteor. 12 (1973) 595), and a logistic re-fit.</summary>
/// <param name="Brier">Mean of (chance − happened)²: less is better.</param>
/// <param name="Unreliable">How far chances stood from what happened at that chance.</param>
/// <param name="Resolution">How far what happened differed between chances.</param>
/// <param name="Uncertainty">Of always saying the base rate.</param>
/// <param name="Bins">By equal chances, rising.</param>
public sealed record Reliability(int Cases, double BaseRate, double Brier, double Unreliable, double Resolution, double Uncertainty, double LogScore, IReadOnlyList<ReliabilityBin> Bins)
{
    /// <summary>1 − Brier/uncertainty: above 0 where the chances were worth more than the base rate; null where all or none happened.</summary>
    public double? Skill => Uncertainty > 0 ? 1 - (Brier / Uncertainty) : null;

    /// <exception cref="ArgumentException">There are no outcomes, or a chance is none.</exception>
    public static Reliability Of(IReadOnlyCollection<Outcome> outcomes)
    {
        ArgumentNullException.ThrowIfNull(outcomes);
        if (outcomes.Count == 0 || outcomes.Any(outcome => outcome.Chance is not (>= 0 and <= 1))) throw new ArgumentException("Give at least one outcome, each with a chance from 0 to 1.", nameof(outcomes));
        var cases = outcomes.Count;
        var rate = (double)outcomes.Count(outcome => outcome.Happened) / cases;
        var bins = outcomes.GroupBy(outcome => outcome.Chance).OrderBy(bin => bin.Key).Select(bin => new ReliabilityBin(bin.Key, bin.Count(), bin.Count(outcome => outcome.Happened))).ToList();
        return new Reliability(
            cases, rate, outcomes.Average(outcome => Math.Pow(outcome.Chance - (outcome.Happened ? 1 : 0), 2)),
            bins.Sum(bin => bin.Cases * Math.Pow(bin.Chance - bin.Interval.Share, 2)) / cases, bins.Sum(bin => bin.Cases * Math.Pow(bin.Interval.Share - rate, 2)) / cases,
            rate * (1 - rate), outcomes.Average(outcome => -Math.Log(Math.Max(1e-12, outcome.Happened ? outcome.Chance : 1 - outcome.Chance))), bins);
    }
}

/// <summary>What happened where one chance was forecast.</summary>
public sealed record ReliabilityBin(double Chance, int Cases, int Happened)
{
    /// <summary>Fewer cases do not make a share worth naming.</summary>
    public bool IsEnough => Cases >= 10;

    public WilsonInterval Interval => WilsonInterval.Of(Happened, Cases);
}
