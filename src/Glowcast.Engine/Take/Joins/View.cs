namespace Glowcast.Engine.Take;

/// <summary>A picture, small, upright and grey: enough to see whether two frames join, where, and how well.</summary>
/// <remarks>Brightness is in the encoding of sRGB (IEC 61966-2-1), a byte a pixel, row by row from the top.</remarks>
public sealed class View
{
    /// <summary>The longer side of a view [pixels]; a smaller picture keeps its own size.</summary>
    public const int LongSide = 96;

    /// <summary>The shorter side of a view that can be compared at all [pixels].</summary>
    public const int LeastSide = 16;

    private readonly byte[] gray;

    /// <exception cref="ArgumentException">Not <paramref name="wide"/> × <paramref name="high"/> bytes, or too large or too small a picture.</exception>
    public View(int wide, int high, ReadOnlySpan<byte> gray)
    {
        if (Math.Max(wide, high) > LongSide || Math.Min(wide, high) < LeastSide)
            throw new ArgumentException($"A view is {LeastSide} to {LongSide} pixels wide and high; got {wide} x {high}.", nameof(wide));
        if (gray.Length != wide * high) throw new ArgumentException($"A view of {wide} x {high} pixels has {wide * high} bytes; got {gray.Length}.", nameof(gray));
        (Wide, High, this.gray) = (wide, high, gray.ToArray());
    }

    public int Wide { get; }

    public int High { get; }

    public ReadOnlySpan<byte> Gray => gray;

    /// <param name="lie">How the picture lies as it is stored (EXIF 0x0112).</param>
    /// <param name="shape">Width by height of the whole picture, as stored; null where it is unknown.</param>
    /// <returns>Null where the picture is too small, or far too long, to be compared.</returns>
    internal static View? Of(GrayPicture picture, int lie, double? shape)
    {
        var inside = picture.WithoutBars(shape);
        var share = Math.Min(1, LongSide / Math.Max(inside.Wide, inside.High));
        var (wide, high) = ((int)Math.Round(inside.Wide * share), (int)Math.Round(inside.High * share));
        if (Math.Min(wide, high) < LeastSide) return null;
        var small = picture.Resampled(inside, wide, high);
        var isTurned = lie >= 5;
        var (uprightWide, uprightHigh) = isTurned ? (high, wide) : (wide, high);
        var upright = new byte[wide * high];
        for (var y = 0; y < high; y++)
            for (var x = 0; x < wide; x++)
            {
                var (across, down) = Lie.Upright(lie, x, y, wide - 1, high - 1);
                upright[((int)down * uprightWide) + (int)across] = small[(y * wide) + x];
            }
        return new View(uprightWide, uprightHigh, upright);
    }
}
