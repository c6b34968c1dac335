using SkiaSharp;

namespace Glowcast.Server.Grids;

/// <summary>Writes a grey picture of 8 bits a pixel as PNG; black (0) is transparent.</summary>
internal static class GreyPng
{
    private const int Channels = 4;

    // The difference from the pixel before suits slopes; for packing tighter nobody would wait.
    private static readonly SKPngEncoderOptions Options = new(SKPngEncoderFilterFlags.Sub, 1);

    /// <param name="pixels">Row by row from the top.</param>
    public static byte[] Write(ReadOnlySpan<byte> pixels, int width, int height)
    {
        using var bitmap = new SKBitmap(width, height, SKColorType.Rgba8888, SKAlphaType.Unpremul);
        var rgba = bitmap.GetPixelSpan();
        for (var i = 0; i < pixels.Length; i++)
        {
            var pixel = rgba.Slice(Channels * i, Channels);
            pixel.Fill(pixels[i]);
            pixel[^1] = pixels[i] == 0 ? byte.MinValue : byte.MaxValue;
        }
        using var pixmap = bitmap.PeekPixels();
        using var encoded = pixmap.Encode(Options) ?? throw new InvalidOperationException("The picture could not be written as PNG.");
        return encoded.ToArray();
    }
}
