namespace Glowcast.Engine.Take;

/// <summary>Finds a preview in a picture file and looks at it; a glance and a small grey view are all that is kept.</summary>
internal static class PreviewGlance
{
    private const int MostHeaderBytes = 1 << 20;
    private const int LeastPreviewBytes = 100;
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
        var budget = new DecodingBudget();
        return In(file, fields, budget).Select(jpeg => JpegBrightness.Of(jpeg, budget)).OfType<GrayPicture>()
            .Select(picture => (Glance: GlanceCells.Of(picture, lie, shape), View: View.Of(picture, lie, shape))).FirstOrDefault(seen => seen.Glance is not null);
    }

    /// <summary>What may be a preview, as JPEG: those the file names, the smallest first; then those found near its beginning;
    /// last the picture itself, if it is a JPEG.</summary>
    public static IEnumerable<byte[]> In(Stream file, ExifFields fields, DecodingBudget budget)
    {
        var head = Part(file, 0, MostHeaderBytes);
        foreach (var (offset, length) in Named(fields.Parts).Concat(Found(head, file.Length)))
        {
            var there = Math.Min(length, file.Length - offset);
            if (there > LeastPreviewBytes && budget.TryTakePicture(there)) yield return Part(file, offset, there);
        }
        if (IsJpeg(head, 0) && file.Length <= MostPictureBytes && budget.TryTakePicture(file.Length)) yield return Part(file, 0, file.Length);
    }

    private static IEnumerable<(long Offset, long Length)> Named(PictureParts parts) => parts.Directories
        .SelectMany(directory => new[] { Pair(directory, ExifTag.JpegOffset, ExifTag.JpegLength), Strip(directory) })
        .OfType<(long Offset, long Length)>().Concat(parts.Previews)
        .Where(pair => pair is { Offset: > 0, Length: > LeastPreviewBytes and <= MostPreviewBytes })
        .OrderBy(pair => pair.Length).Distinct();

    private static (long Offset, long Length)? Strip(TagDirectory directory) =>
        directory[ExifTag.Compression]?.WholeAt(0) is JpegCompression or OldJpegCompression ? Pair(directory, ExifTag.StripOffsets, ExifTag.StripByteCounts) : null;

    private static (long Offset, long Length)? Pair(TagDirectory directory, ExifTag offsetTag, ExifTag lengthTag) =>
        (directory[offsetTag], directory[lengthTag]) is ({ Count: 1 } offset, { Count: 1 } length) && (offset.WholeAt(0), length.WholeAt(0)) is ({ } at, { } bytes)
            ? (directory.Start + at, bytes)
            : null;

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
