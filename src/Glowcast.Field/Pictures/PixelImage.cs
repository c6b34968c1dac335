using SkiaSharp;

namespace Glowcast.Field.Pictures;

/// <summary>Pixels row by row from the top.</summary>
internal sealed class PixelImage(int width, int height)
{
    private readonly Rgb[] pixels = new Rgb[width * height];

    public int Width { get; } = width;

    public int Height { get; } = height;

    public Rgb this[int x, int y]
    {
        get => pixels[(y * Width) + x];
        set => pixels[(y * Width) + x] = value;
    }

    public SKBitmap ToBitmap() => new(new SKImageInfo(Width, Height, SKColorType.Rgba8888, SKAlphaType.Opaque))
    {
        Pixels = Array.ConvertAll(pixels, pixel => new SKColor(pixel.R, pixel.G, pixel.B)),
    };

    /// <summary>As JPEG, which keeps soft tones small.</summary>
    public byte[] ToJpeg()
    {
        const int quality = 86;
        using var bitmap = ToBitmap();
        using var encoded = bitmap.Encode(SKEncodedImageFormat.Jpeg, quality);
        return encoded.ToArray();
    }
}
