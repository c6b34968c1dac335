namespace Glowcast.Engine.Weather;

/// <summary>Chances behind the classes of the judge, until own outcomes say better (docs/model.md, W19).</summary>
public static class DeckChances
{
    /// <summary>Common practice, no source: a class moves a usual chance of one in four by so many halves of log-odds.</summary>
    private const double UsualChance = 0.25;

    private static readonly double[] LogOdds = [-1, -0.25, 0.75, 1.75];

    /// <summary>Of a sea of cloud by its class.</summary>
    /// <param name="usual">The share of the station for the month and hour, where one is known.</param>
    public static double Of(Likelihood likelihood, double usual = UsualChance)
    {
        var odds = Math.Log(Math.Clamp(usual, 0.01, 0.99) / (1 - Math.Clamp(usual, 0.01, 0.99))) + LogOdds[(int)likelihood];
        return 1 / (1 + Math.Exp(-odds));
    }

    /// <summary>The share of a station pulled towards a usual chance that counts as ten flights: (k + a)/(n + a + b), a + b = 10 (common practice).</summary>
    public static double UsualOf(int happened, int flights) => (happened + (10 * UsualChance)) / (flights + 10);
}
