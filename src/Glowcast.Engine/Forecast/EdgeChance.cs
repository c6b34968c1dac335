using Glowcast.Engine.Measures;
using MathNet.Numerics.Distributions;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Two uncertain moments between which something must lie, each normally distributed, their errors correlated.</summary>
/// <param name="Open">The earlier, as expected.</param>
/// <param name="OpenSd">One standard deviation; zero where it is certain.</param>
/// <param name="Close">The later, as expected.</param>
/// <param name="CloseSd">One standard deviation; zero where it is certain.</param>
/// <param name="Correlation">Of their errors, −1 to 1: what shifts both the same way makes it positive.</param>
public readonly record struct EdgeChance(Instant Open, Duration OpenSd, Instant Close, Duration CloseSd, double Correlation)
{
    /// <summary>The chance that a set begun then and as long as this lies between the two: Φ₂(a, b; −r), a = (start − open)/σ of the opening,
    /// b = (close − start − set)/σ of the close.</summary>
    public double Fits(Instant start, Duration set) =>
        BivariateNormal.Below(Over(start - Open, OpenSd), Over(Close - start - set, CloseSd), -Correlation);

    /// <summary>The chance that there is any start at all: that the stretch between the two is as long as the set.</summary>
    public double IsLongEnough(Duration set)
    {
        var (open, close) = (OpenSd.TotalSeconds, CloseSd.TotalSeconds);
        var spreadS = Math.Sqrt(Math.Max(0, (open * open) + (close * close) - (2 * Correlation * open * close)));
        return Normal.CDF(0, 1, Over(Close - Open - set, Duration.FromSeconds(spreadS)));
    }

    // Nothing to spare where nothing is uncertain is enough: an exact fit fits.
    private static double Over(Duration spare, Duration sd) => sd > Duration.Zero
        ? spare / sd
        : spare >= Duration.Zero ? double.PositiveInfinity : double.NegativeInfinity;
}
