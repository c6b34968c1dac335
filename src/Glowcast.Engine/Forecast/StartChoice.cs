namespace Glowcast.Engine.Forecast;

/// <summary>Why a start was chosen.</summary>
public enum StartReason
{
    /// <summary>The plan says it.</summary>
    Given,

    /// <summary>No other has a better chance.</summary>
    Safest,

    /// <summary>As safe as any to 2 %, and the brightness drifts less while the set is shot.</summary>
    SteadierLight,

    /// <summary>As safe as any to 2 %, and the light is redder.</summary>
    RedderLight,

    /// <summary>As safe as any to 2 %, and the shade lies deeper under the lit ridge.</summary>
    DeeperShade,

    /// <summary>No start is possible: from this one least is lost.</summary>
    LeastLost,
}

/// <summary>A start, and why it was chosen.</summary>
/// <param name="StartS">After the start of the day judged.</param>
internal readonly record struct ChosenStart(double StartS, StartReason Why);

/// <summary>A start that may be chosen.</summary>
/// <param name="Drift">Of the brightness, from the first frame of a set to its last [stops].</param>
/// <param name="Warmth">0 to 1.</param>
/// <param name="Depth">Of the shade, 0 to 1.</param>
internal readonly record struct StartCandidate(double StartS, double Chance, double Drift, double Warmth, double Depth)
{
    public double Richness => Warmth + Depth;
}

/// <summary>Which of the possible starts to advise.</summary>
/// <remarks>docs/model.md, F8: the chance first; of those within 2 % of the best the ones whose brightness stays within tolerance, or
/// drifts least; of those the richest light.</remarks>
internal static class StartChoice
{
    /// <summary>Chances nearer than this are as good as one another.</summary>
    public const double AsSafe = 0.02;

    private const double SameRichness = 1e-3;

    /// <param name="starts">In order of time; at least one.</param>
    public static ChosenStart Of(IReadOnlyList<StartCandidate> starts, double toleranceStops)
    {
        var safest = starts.MaxBy(start => start.Chance);
        var safe = starts.Where(start => start.Chance >= safest.Chance - AsSafe).ToList();
        var least = Math.Max(toleranceStops, safe.Min(start => Math.Abs(start.Drift)));
        var steady = safe.FindAll(start => Math.Abs(start.Drift) <= least);
        var richest = steady.Max(start => start.Richness);
        var chosen = steady.FindAll(start => start.Richness >= richest - SameRichness).MaxBy(start => start.Chance);
        return new ChosenStart(chosen.StartS, WhyNot(safest, chosen, least));
    }

    private static StartReason WhyNot(StartCandidate safest, StartCandidate chosen, double leastDrift)
    {
        if (chosen.StartS == safest.StartS) return StartReason.Safest;
        if (Math.Abs(safest.Drift) > leastDrift) return StartReason.SteadierLight;
        return chosen.Warmth - safest.Warmth >= chosen.Depth - safest.Depth ? StartReason.RedderLight : StartReason.DeeperShade;
    }
}
