namespace Glowcast.Engine.Take;

/// <summary>A decoded picture as it is stored, grey, in the encoding of sRGB.</summary>
/// <param name="Gray">Row by row from the top.</param>
internal sealed record GrayPicture(int Wide, int High, byte[] Gray)
{
    private const double SameShape = 0.02;
    private const double BarsEndWithin = 1.5; // pixels: a bar is seldom cut off quite where the shape says

    /// <summary>What is left of it without the bars above and below, or at the sides, that a thumbnail of another shape has.</summary>
    /// <param name="shape">Width by height of the whole picture; null where it is unknown.</param>
    public (double Left, double Top, double Wide, double High) WithoutBars(double? shape)
    {
        var own = (double)Wide / High;
        if (shape is not { } whole || Math.Abs((whole / own) - 1) < SameShape) return (0, 0, Wide, High);
        var (wide, high) = whole > own ? (Wide, (Wide / whole) - (2 * BarsEndWithin)) : ((High * whole) - (2 * BarsEndWithin), (double)High);
        return wide < 1 || high < 1 ? (0, 0, Wide, High) : ((Wide - wide) / 2, (High - high) / 2, wide, high);
    }

    /// <summary>A part of it, smaller: each pixel the mean of what it covers.</summary>
    public byte[] Resampled((double Left, double Top, double Wide, double High) part, int wide, int high)
    {
        var lines = new double[wide * High];
        for (var y = 0; y < High; y++)
            for (var x = 0; x < wide; x++)
                lines[(y * wide) + x] = Mean(part.Left + (x * part.Wide / wide), part.Left + ((x + 1) * part.Wide / wide), Wide, at => Gray[(y * Wide) + at]);
        var small = new byte[wide * high];
        for (var y = 0; y < high; y++)
            for (var x = 0; x < wide; x++)
                small[(y * wide) + x] = (byte)Math.Round(Mean(part.Top + (y * part.High / high), part.Top + ((y + 1) * part.High / high), High, at => lines[(at * wide) + x]));
        return small;
    }

    private static double Mean(double from, double to, int length, Func<int, double> value)
    {
        var (sum, weight) = (0.0, 0.0);
        for (var at = Math.Max(0, (int)from); at < Math.Min(length, to); at++)
        {
            var part = Math.Min(at + 1, to) - Math.Max(at, from);
            (sum, weight) = (sum + (part * value(at)), weight + part);
        }
        return weight > 0 ? sum / weight : 0;
    }
}
