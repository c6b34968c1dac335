using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>Aerosol: optical depth β·λ^−α (λ in µm; Ångström 1929) above the sea, thinning out evenly with height.</summary>
public sealed class Haze
{
    private readonly double[] visibleDepths;

    /// <param name="beta">Optical depth at 1 µm above the sea, 0 to 2: 0.02 very clear, 0.1 clear, 0.2 turbid.</param>
    /// <param name="alpha">0 to 4; 1.3 for common haze, less for coarse dust and sea salt.</param>
    /// <param name="scaleHeight">Height over which it thins out by a factor e, 200 m to 20 km; 2 km when left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public Haze(double beta, double alpha = 1.3, Length? scaleHeight = null)
    {
        Beta = InRange(beta, 0, 2, nameof(beta));
        Alpha = InRange(alpha, 0, 4, nameof(alpha));
        ScaleHeight = Length.FromMetres(InRange(scaleHeight?.Metres ?? 2000, 200, 20_000, nameof(scaleHeight)));
        visibleDepths = VisibleSpectrum.Sample(OpticalDepth);
    }

    public double Beta { get; }

    public double Alpha { get; }

    public Length ScaleHeight { get; }

    public static Haze None { get; } = new(0);

    /// <summary>At the wavelengths of <see cref="VisibleSpectrum"/>.</summary>
    internal ReadOnlySpan<double> VisibleDepths => visibleDepths;

    /// <summary>Of all the haze above the sea, seen straight up.</summary>
    public double OpticalDepth(double wavelengthNm) => Beta * Math.Pow(wavelengthNm / 1000, -Alpha);

    private static double InRange(double value, double min, double max, string name) => value >= min && value <= max
        ? value
        : throw new ArgumentOutOfRangeException(name, value, $"Must lie between {min} and {max}.");
}
