namespace Glowcast.Engine.Sky;

/// <summary>The colour of a light without its brightness: CIE 1931 x and y.</summary>
public readonly record struct Chromaticity(double X, double Y)
{
    /// <summary>CIE 1960 u.</summary>
    public double U => 4 * X / (3 + (12 * Y) - (2 * X));

    /// <summary>CIE 1960 v.</summary>
    public double V => 6 * Y / (3 + (12 * Y) - (2 * X));

    /// <summary>The nearest Planckian radiator, or null where that lies outside 600–50 000 K.</summary>
    public ColourTemperature? Correlated() => PlanckianLocus.NearestTo(this);

    /// <summary>The colour of a Planckian radiator.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside 400–100 000 K.</exception>
    public static Chromaticity OfPlanckian(double temperatureK) => temperatureK is >= 400 and <= 100_000
        ? PlanckianLocus.At(temperatureK)
        : throw new ArgumentOutOfRangeException(nameof(temperatureK), temperatureK, "Must lie between 400 and 100 000 K.");
}

/// <summary>Correlated colour temperature, with the distance that says how much it means.</summary>
/// <param name="Kelvin">Of the nearest Planckian radiator in CIE 1960 u, v.</param>
/// <param name="Duv">Distance from it, positive on the green side. Beyond ±0.05 the temperature means nothing (CIE 15).</param>
public readonly record struct ColourTemperature(double Kelvin, double Duv);
