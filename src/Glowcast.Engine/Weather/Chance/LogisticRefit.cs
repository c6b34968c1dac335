namespace Glowcast.Engine.Weather;

/// <summary>Corrects chances by what happened: logit p′ = intercept + slope · logit p, by greatest likelihood (D. R. Cox, Biometrika 45 (1958) 562).</summary>
public sealed record LogisticRefit(double Intercept, double Slope)
{
    /// <summary>Fewer outcomes are not fitted: they would say more than they know (common practice).</summary>
    public const int FewestOutcomes = 30;

    private const int MostRounds = 100;

    /// <summary>Null with fewer than <see cref="FewestOutcomes"/>, where all or none happened, and where the chances tell them apart wholly or not at all.</summary>
    public static LogisticRefit? Of(IReadOnlyCollection<Outcome> outcomes)
    {
        ArgumentNullException.ThrowIfNull(outcomes);
        if (outcomes.Count < FewestOutcomes || outcomes.All(outcome => outcome.Happened) || !outcomes.Any(outcome => outcome.Happened)) return null;
        var (intercept, slope) = (0.0, 1.0);
        for (var round = 0; round < MostRounds; round++)
        {
            // Newton's method on the two equations of greatest likelihood.
            double g0 = 0, g1 = 0, h00 = 0, h01 = 0, h11 = 0;
            foreach (var (chance, happened) in outcomes)
            {
                var x = Logit(chance);
                var p = 1 / (1 + Math.Exp(-(intercept + (slope * x))));
                var (gap, weight) = ((happened ? 1 : 0) - p, p * (1 - p));
                (g0, g1, h00, h01, h11) = (g0 + gap, g1 + (gap * x), h00 + weight, h01 + (weight * x), h11 + (weight * x * x));
            }
            var determinant = (h00 * h11) - (h01 * h01);
            if (!(Math.Abs(determinant) > 1e-9)) return null;
            var (d0, d1) = (((h11 * g0) - (h01 * g1)) / determinant, ((h00 * g1) - (h01 * g0)) / determinant);
            (intercept, slope) = (intercept + d0, slope + d1);
            if (Math.Abs(d0) + Math.Abs(d1) < 1e-12) return new LogisticRefit(intercept, slope);
        }
        return null;
    }

    public double Apply(double chance) => 1 / (1 + Math.Exp(-(Intercept + (Slope * Logit(chance)))));

    private static double Logit(double chance) => Math.Log(Math.Clamp(chance, 0.001, 0.999) / (1 - Math.Clamp(chance, 0.001, 0.999)));
}
