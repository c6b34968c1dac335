using MathNet.Numerics.Interpolation;
using MathNet.Numerics.RootFinding;

namespace Glowcast.Engine.Sky;

/// <summary>The colours of Planckian radiators, c₂ = 0.01438777 m·K, and the one nearest to a given colour.</summary>
/// <remarks>Searched by distance in CIE 1960 u, v over reciprocal temperature, so that it does not fail for very red
/// light as the published cubic formulas do.</remarks>
public static class PlanckianLocus
{
    private const double SecondRadiationNmK = 1.438776877e7;
    private const double MiredPerInverseK = 1e6;
    private const double StepMired = 5;

    private static readonly double[] Mireds = [.. Enumerable.Range(0, 332).Select(i => 15 + (i * StepMired))];

    private static readonly Chromaticity[] Colours = [.. Mireds.Select(mired => At(MiredPerInverseK / mired))];

    private static readonly CubicSpline U = CubicSpline.InterpolateNaturalSorted(Mireds, [.. Colours.Select(colour => colour.U)]);

    private static readonly CubicSpline V = CubicSpline.InterpolateNaturalSorted(Mireds, [.. Colours.Select(colour => colour.V)]);

    extension(Chromaticity colour)
    {
        /// <summary>The nearest Planckian radiator, or null where that lies outside 600–50 000 K.</summary>
        public ColourTemperature? Correlated() => NearestTo(colour);

        /// <summary>The colour of a Planckian radiator.</summary>
        /// <exception cref="ArgumentOutOfRangeException">Outside 400–100 000 K.</exception>
        public static Chromaticity OfPlanckian(double temperatureK) => temperatureK is >= 400 and <= 100_000
            ? At(temperatureK)
            : throw new ArgumentOutOfRangeException(nameof(temperatureK), temperatureK, "Must lie between 400 and 100 000 K.");
    }

    private static Chromaticity At(double temperatureK) =>
        VisibleSpectrum.Weigh(VisibleSpectrum.Sample(nm => Planck(nm, temperatureK))).Chromaticity;

    private static ColourTemperature? NearestTo(Chromaticity colour)
    {
        var nearest = Enumerable.Range(0, Mireds.Length).MinBy(i => Distance(colour, Colours[i].U, Colours[i].V));
        if (nearest == 0 || nearest == Mireds.Length - 1) return null;

        var mired = Brent.FindRoot(
            m => ((U.Interpolate(m) - colour.U) * U.Differentiate(m)) + ((V.Interpolate(m) - colour.V) * V.Differentiate(m)),
            Mireds[nearest - 1],
            Mireds[nearest + 1],
            accuracy: 1e-9);
        var distance = Distance(colour, U.Interpolate(mired), V.Interpolate(mired));
        return new ColourTemperature(MiredPerInverseK / mired, Math.CopySign(distance, colour.V - V.Interpolate(mired)));
    }

    /// <summary>Planck's law, relative to no particular unit.</summary>
    private static double Planck(double nm, double temperatureK) =>
        Math.Pow(nm / 560, -5) / (Math.Exp(SecondRadiationNmK / (nm * temperatureK)) - 1);

    private static double Distance(Chromaticity colour, double u, double v) => Math.Sqrt(Math.Pow(colour.U - u, 2) + Math.Pow(colour.V - v, 2));
}
