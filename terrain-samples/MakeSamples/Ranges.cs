namespace MakeSamples;

/// <summary>The plan of the island: how fast the ground rises at each place, as a share of the fastest.</summary>
/// <remarks>A range is a broken line of places that rise fast, and falls off to both sides; the lines are bent by noise
/// before use, so that no crest is straight. Kilometres from the tile's south-west corner.</remarks>
internal static class Ranges
{
    private const int Seed = 311;
    private const double Lowland = 0.20;

    // East, north, rise at the crest.
    private static readonly Crest Main = new(HalfWidthKm: 7.5,
    [
        (46.0, 14, 0.45), (44.0, 23, 0.72), (41.8, 32, 0.84), (40.6, 36, 0.30), (39.6, 41, 0.92), (38.6, 46, 0.82), (38.8, 50, 0.24),
        (40.6, 55, 0.88), (39.4, 59, 0.80), (38.6, 62.5, 0.86), (39.6, 66, 0.24), (40.4, 71, 0.92), (40.2, 75.5, 0.40), (41.0, 81, 0.88), (43.5, 90, 0.75), (47.5, 99, 0.45),
    ]);

    private static readonly Crest Far = new(HalfWidthKm: 7.5,
    [
        (27, 12, 0.38), (23.5, 24, 0.72), (21.5, 33, 0.85), (20.5, 41, 0.77), (19.8, 51, 0.99), (19.6, 58, 0.81), (20.2, 66, 0.97), (20.6, 74, 0.78), (21.5, 82, 0.87), (24, 94, 0.51),
    ]);

    private static readonly Crest Near = new(HalfWidthKm: 5.0,
    [
        (59.5, 20, 0.38), (61.0, 32, 0.50), (61.8, 43, 0.56), (61.6, 52, 0.60), (62.0, 60, 0.56), (61.6, 70, 0.63), (60.4, 82, 0.59), (56, 92, 0.56), (49, 95, 0.56),
    ]);

    public static double Rise(double eastKm, double northKm)
    {
        var x = eastKm + (3.2 * Noise.Layered(eastKm / 12, northKm / 12, 4, Seed));
        var y = northKm + (3.2 * Noise.Layered(eastKm / 12, northKm / 12, 4, Seed + 50));
        var ranges = Math.Max(Main.Rise(x, y), Math.Max(Far.Rise(x, y), Near.Rise(x, y)));
        var shore = Math.Clamp(Coast.Inland(eastKm, northKm) * 3, 0, 1);
        var blocks = Math.Max(0.3, 1 + (0.30 * Noise.Layered(eastKm / 6, northKm / 6, 3, Seed + 90)));
        return shore * (Lowland + (ranges * blocks));
    }

    private sealed record Crest(double HalfWidthKm, (double EastKm, double NorthKm, double Rise)[] Line)
    {
        public double Rise(double eastKm, double northKm)
        {
            var best = 0.0;
            for (var i = 1; i < Line.Length; i++)
                best = Math.Max(best, RiseOfPart(Line[i - 1], Line[i], eastKm, northKm));
            return best;
        }

        private double RiseOfPart((double EastKm, double NorthKm, double Rise) a, (double EastKm, double NorthKm, double Rise) b, double x, double y)
        {
            var (alongX, alongY) = (b.EastKm - a.EastKm, b.NorthKm - a.NorthKm);
            var t = (((x - a.EastKm) * alongX) + ((y - a.NorthKm) * alongY)) / ((alongX * alongX) + (alongY * alongY));
            t = Math.Clamp(t, 0, 1);
            var (offX, offY) = (x - a.EastKm - (t * alongX), y - a.NorthKm - (t * alongY));
            var away = ((offX * offX) + (offY * offY)) / (HalfWidthKm * HalfWidthKm);
            return (a.Rise + (t * (b.Rise - a.Rise))) / ((1 + away) * (1 + away));
        }
    }
}
