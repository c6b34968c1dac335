namespace MakeSamples;

/// <summary>Repeatable unevenness: the same place and seed give the same value, to the last bit, on every machine.</summary>
/// <remarks>Integer hashing and + − × / √ only, all exactly defined by IEEE 754; no sine, power or exponential.</remarks>
internal static class Noise
{
    /// <summary>A value in [0, 1) for a whole-numbered place.</summary>
    public static double Hash(int x, int y, int seed)
    {
        unchecked
        {
            // Multiply-and-shift mixing of 32-bit words; the constants are odd and have no pattern.
            var h = ((uint)x * 0x9E3779B1u) ^ ((uint)y * 0x85EBCA77u) ^ ((uint)seed * 0xC2B2AE3Du);
            h = (h ^ (h >> 15)) * 0x2C1B3C6Du;
            h = (h ^ (h >> 12)) * 0x297A2D39u;
            return (h ^ (h >> 15)) / 4294967296.0;
        }
    }

    /// <summary>Smooth gradient noise of wavelength about 1, within about ±1.</summary>
    public static double Smooth(double x, double y, int seed)
    {
        var (floorX, floorY) = (Math.Floor(x), Math.Floor(y));
        var (column, row) = ((int)floorX, (int)floorY);
        var (u, v) = (x - floorX, y - floorY);
        var south = Mix(Slope(column, row, u, v, seed), Slope(column + 1, row, u - 1, v, seed), Ease(u));
        var north = Mix(Slope(column, row + 1, u, v - 1, seed), Slope(column + 1, row + 1, u - 1, v - 1, seed), Ease(u));
        return 1.5 * Mix(south, north, Ease(v));
    }

    /// <summary>Noise over noise, each octave of half the wavelength and half the height.</summary>
    public static double Layered(double x, double y, int octaves, int seed)
    {
        var (sum, amplitude) = (0.0, 1.0);
        for (var octave = 0; octave < octaves; octave++, amplitude /= 2, x *= 2, y *= 2)
            sum += amplitude * Smooth(x, y, seed + octave);
        return sum;
    }

    /// <summary>Layered noise folded at zero: sharp crests at 1, rounded hollows below; rough where it is high.</summary>
    public static double Ridged(double x, double y, int octaves, int seed)
    {
        var (sum, amplitude, weight) = (0.0, 0.5, 1.0);
        for (var octave = 0; octave < octaves; octave++, amplitude /= 2, x *= 2, y *= 2)
        {
            var fold = 1 - Math.Abs(Smooth(x, y, seed + octave));
            var crest = fold * fold * weight;
            sum += amplitude * crest;
            weight = Math.Min(1, crest * 1.6);
        }
        return sum;
    }

    // The dot product of the way from a corner with that corner's own direction, a point of the square |a| + |b| = 1.
    private static double Slope(int column, int row, double u, double v, int seed)
    {
        var turn = 4 * Hash(column, row, seed);
        var a = 1 - Math.Abs(turn - 2);
        var b = turn < 2 ? 1 - Math.Abs(turn - 1) : Math.Abs(turn - 3) - 1;
        return ((a * u) + (b * v)) / Math.Sqrt((a * a) + (b * b));
    }

    private static double Ease(double t) => t * t * t * ((t * ((t * 6) - 15)) + 10);

    private static double Mix(double a, double b, double t) => a + ((b - a) * t);
}
