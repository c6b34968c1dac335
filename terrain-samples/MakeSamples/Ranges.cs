namespace MakeSamples;

/// <summary>The plan of the island: the main range in its middle, a farther one to the west, lower hills to the east.</summary>
/// <remarks>Kilometres from the tile's south-west corner. The lines are bent by noise before use, so no crest is straight,
/// and blocks some kilometres wide rise a little faster or slower than their neighbours.</remarks>
internal static class Ranges
{
    private const int Seed = 311;
    private const double Lowland = 0.20;

    private static readonly Crest Main = new(HalfWidthKm: 7.5,
    [
        new(41.5, 14, 0.45), new(39.8, 23, 0.88), new(38.8, 31, 1.04), new(39.0, 35.5, 0.16), new(39.4, 41, 1.10), new(38.6, 46, 0.98),
        new(38.8, 49, 0.10), new(39.2, 51.5, 0.10), new(40.6, 55.5, 0.88), new(39.4, 59, 0.74), new(38.6, 62.5, 0.96), new(39.4, 65.5, 0.12), new(39.8, 67, 0.12), new(41.0, 71, 1.00),
        new(41.8, 75.5, 0.40), new(43.4, 81, 0.90), new(46.0, 90, 0.75), new(49, 98, 0.45),
    ]);

    private static readonly Crest Far = new(HalfWidthKm: 7.5,
    [
        new(27, 12, 0.43), new(23.5, 24, 0.82), new(21.5, 33, 0.97), new(20.5, 41, 0.88), new(19.8, 51, 1.13), new(19.6, 58, 0.92),
        new(20.2, 66, 1.11), new(20.6, 74, 0.89), new(21.5, 82, 0.99), new(24, 94, 0.58),
    ]);

    private static readonly Crest Near = new(HalfWidthKm: 5.0,
    [
        new(59.5, 20, 0.38), new(61.0, 32, 0.50), new(61.8, 43, 0.56), new(61.6, 52, 0.60), new(62.0, 60, 0.56), new(61.6, 70, 0.63),
        new(60.4, 82, 0.59), new(56, 92, 0.56), new(49, 95, 0.56),
    ]);

    /// <summary>How fast the ground rises at a place, about 1 where it rises fastest.</summary>
    public static double Rise(double eastKm, double northKm)
    {
        var x = eastKm + (3.2 * Noise.Layered(eastKm / 12, northKm / 12, 4, Seed));
        var y = northKm + (3.2 * Noise.Layered(eastKm / 12, northKm / 12, 4, Seed + 50));
        var ranges = Math.Max(Main.Rise(x, y), Math.Max(Far.Rise(x, y), Near.Rise(x, y)));
        var shore = Math.Clamp(Coast.Inland(eastKm, northKm) * 3, 0, 1);
        var blocks = Math.Max(0.3, 1 + (0.30 * Noise.Layered(eastKm / 6, northKm / 6, 3, Seed + 90)));
        return shore * (Lowland + (ranges * blocks));
    }
}
