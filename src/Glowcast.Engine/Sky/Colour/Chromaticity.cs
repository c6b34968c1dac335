namespace Glowcast.Engine.Sky;

/// <summary>The colour of a light without its brightness: CIE 1931 x and y.</summary>
public readonly record struct Chromaticity(double X, double Y)
{
    /// <summary>CIE 1960 u.</summary>
    public double U => 4 * X / (3 + (12 * Y) - (2 * X));

    /// <summary>CIE 1960 v.</summary>
    public double V => 6 * Y / (3 + (12 * Y) - (2 * X));
}

/// <summary>Correlated colour temperature, with the distance that says how much it means.</summary>
/// <param name="Kelvin">Of the nearest Planckian radiator in CIE 1960 u, v.</param>
/// <param name="Duv">Distance from it, positive on the green side. Beyond ±0.05 the temperature means nothing (CIE 15).</param>
public readonly record struct ColourTemperature(double Kelvin, double Duv);
