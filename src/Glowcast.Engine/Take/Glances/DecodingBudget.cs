namespace Glowcast.Engine.Take;

/// <summary>How much decoding one file may cost: small pictures are tried one after another, and a file may claim many.</summary>
/// <remarks>A pixel of a baseline JPEG is passed once, one of a progressive JPEG in every scan; a scan may cost its file nine bytes.</remarks>
internal sealed class DecodingBudget
{
    /// <summary>Of progressive pictures: cameras and programs write about ten.</summary>
    public const int MostScans = 32;

    private const int MostPictures = 12;
    private const long MostBytes = 160 << 20;
    private const long MostPixelPasses = 400_000_000;

    private int pictures = MostPictures;
    private long bytes = MostBytes;
    private long pixelPasses = MostPixelPasses;

    /// <returns>Whether there is room for a picture more, of so many bytes; it is then taken.</returns>
    public bool TryTakePicture(long length)
    {
        if (pictures == 0 || length > bytes) return false;
        (pictures, bytes) = (pictures - 1, bytes - length);
        return true;
    }

    /// <returns>Whether there is room for decoding it; it is then taken.</returns>
    public bool TryTakePixels(long pixels, int scans)
    {
        if (scans > MostScans || pixels * scans > pixelPasses) return false;
        pixelPasses -= pixels * scans;
        return true;
    }
}
