namespace Glowcast.Engine.Take;

/// <summary>The brightness of what two pictures both show.</summary>
internal static class SharedBrightness
{
    private const byte Darkest = 6;
    private const byte Brightest = 250;
    private const int LeastPixels = 20;

    private static readonly double[] Stops = [.. Enumerable.Range(0, 256).Select(value => Math.Log2(Linear(value / 255.0)))];

    /// <summary>By how many stops the second is brighter, as the median over the part; what is clipped in either is left out.</summary>
    /// <returns>Null where too little is left.</returns>
    public static double? Difference(View first, View second, Join join)
    {
        var (across, down) = ((int)Math.Round(join.Across * first.Wide), (int)Math.Round(join.Down * first.High));
        var differences = new List<double>();
        for (var y = Math.Max(0, down); y < Math.Min(first.High, first.High + down); y++)
            for (var x = Math.Max(0, across); x < Math.Min(first.Wide, first.Wide + across); x++)
            {
                var (a, b) = (first.Gray[(y * first.Wide) + x], second.Gray[((y - down) * second.Wide) + x - across]);
                if (a is >= Darkest and <= Brightest && b is >= Darkest and <= Brightest) differences.Add(Stops[b] - Stops[a]);
            }
        return differences.Count < LeastPixels ? null : SessionFacts.Median(differences);
    }

    private static double Linear(double value) => Math.Max(1e-6, value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4));
}
