namespace Glowcast.Engine.Tests.Light;

/// <summary>A smooth random field over the plane, of variance 1 and Gaussian correlation e^(−r²/2L²): a sum of waves whose
/// wave vectors are normally distributed with standard deviation 1/L.</summary>
internal sealed class SmoothNoise
{
    private const int Waves = 40;

    private readonly (double X, double Y, double Phase)[] waves;

    public SmoothNoise(Random random, double length) =>
        waves = [.. Enumerable.Range(0, Waves).Select(_ => (Normal(random) / length, Normal(random) / length, 2 * Math.PI * random.NextDouble()))];

    public double At(double x, double y) => Math.Sqrt(2.0 / Waves) * waves.Sum(wave => Math.Cos((wave.X * x) + (wave.Y * y) + wave.Phase));

    /// <summary>By Box and Muller.</summary>
    public static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
