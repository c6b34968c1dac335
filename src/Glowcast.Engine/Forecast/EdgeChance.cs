using MathNet.Numerics;
using MathNet.Numerics.Integration;

namespace Glowcast.Engine.Forecast;

/// <summary>Chances of normal errors (docs/model.md, F16).</summary>
internal static class EdgeChance
{
    private const int Nodes = 32;

    // Nearer to ±1 the two errors are one.
    private const double MostCorrelated = 0.9999;

    /// <summary>The chance that a standard normal error is less than this, Φ.</summary>
    public static double Below(double deviations) => 0.5 * SpecialFunctions.Erfc(-deviations / Math.Sqrt(2));

    /// <summary>The chance that two standard normal errors of some correlation are each less than theirs, Φ₂.</summary>
    /// <remarks>Plackett 1954: the slope of Φ₂ by the correlation is the density; with ρ = sin θ its integral is smooth.</remarks>
    public static double BothBelow(double a, double b, double correlation)
    {
        if (double.IsInfinity(a) || double.IsInfinity(b)) return Below(a) * Below(b);
        var end = Math.Asin(Math.Clamp(correlation, -MostCorrelated, MostCorrelated));
        var joint = GaussLegendreRule.Integrate(theta => Math.Exp(-Exponent(Math.Sin(theta), Math.Cos(theta))), 0, end, Nodes) / (2 * Math.PI);
        return Math.Clamp((Below(a) * Below(b)) + joint, 0, Math.Min(Below(a), Below(b)));

        double Exponent(double sin, double cos) => ((a * a) + (b * b) - (2 * a * b * sin)) / (2 * cos * cos);
    }
}
