namespace Glowcast.Engine.Take;

/// <summary>Gathers the pixels of a picture into the parts of a glance, turned upright, without the bars a thumbnail of
/// another shape has.</summary>
internal sealed class GlanceCells
{
    private static readonly double[] Linear = [.. Enumerable.Range(0, 256).Select(value => FromSrgb(value / 255.0))];

    private readonly double[] sums = new double[Glance.Columns * Glance.Rows];
    private readonly int[] counts = new int[Glance.Columns * Glance.Rows];
    private readonly int lie;
    private readonly (double Left, double Top, double Wide, double High) inside;

    private GlanceCells(int lie, (double Left, double Top, double Wide, double High) inside) => (this.lie, this.inside) = (lie, inside);

    /// <param name="lie">How the picture lies (EXIF 0x0112).</param>
    /// <param name="shape">Width by height of the whole picture; null where it is unknown.</param>
    /// <returns>Null where some part got no pixel.</returns>
    public static Glance? Of(GrayPicture picture, int lie, double? shape)
    {
        var cells = new GlanceCells(lie, picture.WithoutBars(shape));
        for (var y = 0; y < picture.High; y++) cells.Add(y, picture.Gray.AsSpan(y * picture.Wide, picture.Wide));
        return cells.Glance;
    }

    private void Add(int y, ReadOnlySpan<byte> line)
    {
        var v = (y + 0.5 - inside.Top) / inside.High;
        if (v is < 0 or >= 1) return;
        for (var x = 0; x < line.Length; x++)
        {
            var u = (x + 0.5 - inside.Left) / inside.Wide;
            if (u is < 0 or >= 1) continue;
            var (across, down) = Lie.Upright(lie, u, v);
            var cell = ((int)(Math.Min(down, 0.9999999) * Glance.Rows) * Glance.Columns) + (int)(Math.Min(across, 0.9999999) * Glance.Columns);
            sums[cell] += Linear[line[x]];
            counts[cell]++;
        }
    }

    private Glance? Glance => Array.IndexOf(counts, 0) >= 0
        ? null
        : new Glance([.. sums.Zip(counts, (sum, count) => sum > 0 ? (float)Math.Log2(sum / count) : Take.Glance.Darkest)]);

    private static double FromSrgb(double value) => value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);
}
