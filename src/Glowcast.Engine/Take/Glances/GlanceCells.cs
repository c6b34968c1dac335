namespace Glowcast.Engine.Take;

/// <summary>Gathers the pixels of a picture into the parts of a glance, turned upright, without the bars a thumbnail of
/// another shape has.</summary>
internal sealed class GlanceCells
{
    private const double SameShape = 0.02;

    private static readonly double[] Linear = [.. Enumerable.Range(0, 256).Select(value => FromSrgb(value / 255.0))];

    private readonly double[] sums = new double[Glance.Columns * Glance.Rows];
    private readonly int[] counts = new int[Glance.Columns * Glance.Rows];
    private readonly int lie;
    private readonly (double Left, double Top, double Wide, double High) inside;

    /// <param name="lie">How the picture lies (EXIF 0x0112).</param>
    /// <param name="shape">Width by height of the whole picture; null where it is unknown.</param>
    public GlanceCells(int wide, int high, int lie, double? shape)
    {
        this.lie = lie;
        var own = (double)wide / high;
        // Bars above and below, or at the sides.
        var (insideWide, insideHigh) = shape is not { } whole || Math.Abs((whole / own) - 1) < SameShape ? (wide, high)
            : whole > own ? (wide, wide / whole)
            : (high * whole, (double)high);
        inside = ((wide - insideWide) / 2, (high - insideHigh) / 2, insideWide, insideHigh);
    }

    /// <param name="line">Brightness from left to right, in the encoding of sRGB (IEC 61966-2-1).</param>
    public void Add(int y, byte[] line)
    {
        var v = (y + 0.5 - inside.Top) / inside.High;
        if (v is < 0 or >= 1) return;
        for (var x = 0; x < line.Length; x++)
        {
            var u = (x + 0.5 - inside.Left) / inside.Wide;
            if (u is < 0 or >= 1) continue;
            var (across, down) = Upright(u, v);
            var cell = ((int)(Math.Min(down, 0.9999999) * Glance.Rows) * Glance.Columns) + (int)(Math.Min(across, 0.9999999) * Glance.Columns);
            sums[cell] += Linear[line[x]];
            counts[cell]++;
        }
    }

    /// <summary>Null where some part got no pixel.</summary>
    public Glance? Glance => Array.IndexOf(counts, 0) >= 0
        ? null
        : new Glance([.. sums.Zip(counts, (sum, count) => sum > 0 ? (float)Math.Log2(sum / count) : Take.Glance.Darkest)]);

    // EXIF 2.32, 0x0112: where row 0 and column 0 of the stored picture are to be seen.
    private (double Across, double Down) Upright(double u, double v) => lie switch
    {
        2 => (1 - u, v),
        3 => (1 - u, 1 - v),
        4 => (u, 1 - v),
        5 => (v, u),
        6 => (1 - v, u),
        7 => (1 - v, 1 - u),
        8 => (v, 1 - u),
        _ => (u, v),
    };

    private static double FromSrgb(double value) => value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);
}
