namespace Glowcast.Engine.Weather;

/// <summary>How far a share can be trusted that was counted over few cases: Wilson's interval of 95 % (J. Amer. Statist. Assoc. 22 (1927) 209).</summary>
/// <param name="Share">Counted; 0 where there were no cases.</param>
public readonly record struct WilsonInterval(double Share, double Low, double High)
{
    /// <summary>Of the normal distribution for 95 %, rounded as is usual.</summary>
    private const double Z = 1.96;

    /// <param name="happened">0 to <paramref name="cases"/>.</param>
    public static WilsonInterval Of(int happened, int cases)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(happened);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(happened, cases);
        if (cases == 0) return new WilsonInterval(0, 0, 1);
        double share = (double)happened / cases, widening = Z * Z / cases;
        var middle = (share + (widening / 2)) / (1 + widening);
        var half = Z / (1 + widening) * Math.Sqrt((share * (1 - share) / cases) + (widening / (4 * cases)));
        return new WilsonInterval(share, Math.Max(0, middle - half), Math.Min(1, middle + half));
    }
}
