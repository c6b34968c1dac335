using MetadataExtractor;
using MetadataExtractor.Formats.Exif;

namespace Glowcast.Engine.Take;

/// <summary>Finds a preview in a picture file and looks at it; a glance and a small grey view are all that is kept.</summary>
internal static class PreviewGlance
{
    private const int ThumbnailOffset = 0x0201; // JPEGInterchangeFormat
    private const int ThumbnailLength = 0x0202; // JPEGInterchangeFormatLength
    private const int MostHeaderBytes = 1 << 20;
    private const int MostPreviewBytes = 16 << 20;
    private const long MostPictureBytes = 64 << 20;
    private const int JpegCompression = 7;
    private const int OldJpegCompression = 6;

    /// <returns>Nulls where there is no preview that can be decoded.</returns>
    public static (Glance? Glance, View? View) Of(Stream file, ExifFields fields)
    {
        var settings = fields.Settings;
        var shape = settings is { PixelsWide: { } wide, PixelsHigh: { } high } ? (double)wide / high : (double?)null;
        var lie = settings.Lie ?? 1;
        return In(file, fields).Select(JpegBrightness.Of).OfType<GrayPicture>()
            .Select(picture => (Glance: GlanceCells.Of(picture, lie, shape), View: View.Of(picture, lie, shape))).FirstOrDefault(seen => seen.Glance is not null);
    }

    /// <summary>What may be a preview, as JPEG: those the file names, the smallest first; then those found near its beginning;
    /// last the picture itself, if it is a JPEG.</summary>
    public static IEnumerable<byte[]> In(Stream file, ExifFields fields)
    {
        var head = Part(file, 0, MostHeaderBytes);
        foreach (var (offset, length) in Named(fields, head).Concat(Found(head, file.Length))) yield return Part(file, offset, length);
        if (IsJpeg(head, 0) && file.Length <= MostPictureBytes) yield return Part(file, 0, file.Length);
    }

    private static IEnumerable<(long Offset, long Length)> Named(ExifFields fields, byte[] head)
    {
        var exifAt = head.AsSpan().IndexOf("Exif\0\0"u8);
        long[] bases = exifAt < 0 || !IsJpeg(head, 0) ? [0] : [exifAt + 6];
        return
            from directory in fields.All.OfType<ExifDirectoryBase>()
            from pair in new[] { Pair(directory, ThumbnailOffset, ThumbnailLength), Strip(directory) }
            where pair is { Offset: > 0, Length: > 100 and <= MostPreviewBytes }
            orderby pair.Value.Length
            from start in bases
            select (pair.Value.Offset + start, pair.Value.Length);
    }

    private static (long Offset, long Length)? Strip(ExifDirectoryBase directory) =>
        directory.TryGetInt32(ExifDirectoryBase.TagCompression, out var compression) && compression is JpegCompression or OldJpegCompression
            ? Pair(directory, ExifDirectoryBase.TagStripOffsets, ExifDirectoryBase.TagStripByteCounts)
            : null;

    private static (long Offset, long Length)? Pair(ExifDirectoryBase directory, int offsetTag, int lengthTag) =>
        directory.TryGetInt64(offsetTag, out var offset) && directory.TryGetInt64(lengthTag, out var length) ? (offset, length) : null;

    // Makers hide previews in notes of their own; they stand near the beginning, and begin as every JPEG does.
    private static IEnumerable<(long Offset, long Length)> Found(byte[] head, long fileLength)
    {
        const int mostTried = 4;
        var tried = 0;
        for (var at = 2; at + 4 < head.Length && tried < mostTried; at++)
        {
            if (!IsJpeg(head, at)) continue;
            tried++;
            yield return (at, Math.Min(fileLength - at, MostPreviewBytes));
        }
    }

    private static bool IsJpeg(byte[] head, int at) => at + 2 < head.Length && head[at] == 0xFF && head[at + 1] == 0xD8 && head[at + 2] == 0xFF;

    private static byte[] Part(Stream file, long offset, long length)
    {
        if (offset < 0 || offset >= file.Length) return [];
        var bytes = new byte[Math.Min(length, file.Length - offset)];
        file.Position = offset;
        file.ReadExactly(bytes);
        return bytes;
    }
}
