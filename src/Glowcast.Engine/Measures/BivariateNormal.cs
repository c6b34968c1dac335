using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Integration;

namespace Glowcast.Engine.Measures;

/// <summary>Two standard normal errors with a correlation.</summary>
public static class BivariateNormal
{
    private const double NearlyOne = 1 - 1e-9;

    /// <summary>Φ₂(a, b; r): the chance that the first is at most <paramref name="a"/> and the second at most <paramref name="b"/>.</summary>
    /// <param name="correlation">−1 to 1, both included.</param>
    /// <remarks>Φ(a)Φ(b) + 1/2π ∫₀^{asin r} exp(−(a² + b² − 2ab sin θ)/2cos²θ) dθ (Owen 1956; Drezner and Wesolowsky 1990), by Gauss and Kronrod to 1e-9. Infinite
    /// limits are allowed.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The correlation is none, or a limit is NaN.</exception>
    public static double Below(double a, double b, double correlation)
    {
        if (double.IsNaN(a) || double.IsNaN(b)) throw new ArgumentOutOfRangeException(nameof(a), "A limit must be a number.");
        if (!(Math.Abs(correlation) <= 1)) throw new ArgumentOutOfRangeException(nameof(correlation), correlation, "A correlation lies between -1 and 1.");
        var (ofA, ofB) = (Normal.CDF(0, 1, a), Normal.CDF(0, 1, b));
        if (double.IsInfinity(a) || double.IsInfinity(b)) return ofA * ofB;
        if (correlation > NearlyOne) return Math.Min(ofA, ofB);
        if (correlation < -NearlyOne) return Math.Max(0, ofA + ofB - 1);
        var together = GaussKronrodRule.Integrate(Density, 0, Math.Asin(correlation), out _, out _, 1e-9, 12) / Constants.Pi2;
        return Math.Clamp((ofA * ofB) + together, 0, 1);

        double Density(double angle)
        {
            var (sin, cos) = Math.SinCos(angle);
            return Math.Exp(-((a * a) + (b * b) - (2 * a * b * sin)) / (2 * cos * cos));
        }
    }
}
