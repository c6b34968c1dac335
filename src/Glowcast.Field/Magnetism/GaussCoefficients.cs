using System.Globalization;

namespace Glowcast.Field.Magnetism;

/// <summary>The figures of the World Magnetic Model 2025, as published (wmm2025.csv says by whom).</summary>
/// <remarks>Schmidt semi-normalised; of degree n and order m, in nanotesla at the epoch and nanotesla a year. Immutable.</remarks>
internal sealed class GaussCoefficients
{
    public const int Degree = 12;

    private readonly (double G, double H, double GDot, double HDot)[,] terms = new (double, double, double, double)[Degree + 1, Degree + 1];

    private GaussCoefficients()
    {
    }

    public static GaussCoefficients Wmm2025 { get; } = Read("wmm2025.csv");

    /// <summary>g and h of a term [nT], some years after the epoch.</summary>
    public (double G, double H) At(int n, int m, double years)
    {
        var (g, h, gDot, hDot) = terms[n, m];
        return (g + (years * gDot), h + (years * hDot));
    }

    private static GaussCoefficients Read(string name)
    {
        using var stream = typeof(GaussCoefficients).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"This program was built without {name}.");
        using var text = new StreamReader(stream);
        var read = new GaussCoefficients();
        while (text.ReadLine() is { } line)
        {
            if (!char.IsAsciiDigit(line[0])) continue;
            var numbers = line.Split(',').Select(number => double.Parse(number, CultureInfo.InvariantCulture)).ToArray();
            read.terms[(int)numbers[0], (int)numbers[1]] = (numbers[2], numbers[3], numbers[4], numbers[5]);
        }
        return read;
    }
}
