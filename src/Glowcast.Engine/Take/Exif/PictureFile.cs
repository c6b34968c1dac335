using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Take;

/// <summary>Reads the parts of a picture file that are wanted.</summary>
/// <remarks>The file is told by its first bytes, never by its name. JPEG, TIFF and the raw files that are TIFF within (CR2, DNG, NEF,
/// ORF, RW2 and others), RAF, and CR3, HEIF, PNG and WebP, which have EXIF in parts of their own. Nothing is unfolded, nothing calls
/// itself, and <see cref="PictureBytes"/> and <see cref="TagWalk"/> bound how much is read.</remarks>
internal static class PictureFile
{
    private const int HeadBytes = 16;

    /// <param name="name">Of the file, for faults.</param>
    /// <exception cref="BadInputException">It is no picture file, or a TIFF file of which nothing can be read.</exception>
    public static PictureParts Read(Stream file, string name)
    {
        var parts = new PictureParts(new PictureBytes(file));
        Span<byte> head = stackalloc byte[HeadBytes];
        head.Clear();
        _ = parts.Bytes.TryRead(0, head[..(int)Math.Min(HeadBytes, parts.Bytes.Length)]);
        if (!Read(head, parts)) throw new BadInputException(name, "Is no picture file that can be read: JPEG, TIFF, DNG or a camera's raw file.");
        return parts.Directories.Count > 0 || !IsTiff(head)
            ? parts
            : throw new BadInputException(name, "Is broken: what the camera wrote into it cannot be read.");
    }

    private static bool Read(ReadOnlySpan<byte> head, PictureParts parts)
    {
        if (JpegSegments.Begin(head)) JpegSegments.Read(0, parts);
        else if (IsTiff(head)) ReadTiff(parts);
        else if (head.StartsWith("FUJIFILMCCD-RAW "u8)) ReadRaf(parts);
        else if (head[4..].StartsWith("ftyp"u8)) IsoMediaFile.Read(parts);
        else if (head.StartsWith(PictureChunks.PngMark)) PictureChunks.ReadPng(parts);
        else if (head.StartsWith("RIFF"u8) && head[8..].StartsWith("WEBP"u8)) PictureChunks.ReadWebP(parts);
        else return false;
        return true;
    }

    // 42 is TIFF; ORF writes RO or RS, RW2 55 (hexadecimal).
    private static bool IsTiff(ReadOnlySpan<byte> head) => (head[0], head[1], head[2], head[3]) is
        ((byte)'I', (byte)'I', 42 or 0x55, 0) or ((byte)'M', (byte)'M', 0, 42)
        or ((byte)'I', (byte)'I', (byte)'R', (byte)'O' or (byte)'S') or ((byte)'M', (byte)'M', (byte)'O' or (byte)'S', (byte)'R');

    private static void ReadTiff(PictureParts parts)
    {
        const int panasonic = 0x55;
        if (parts.AddTags(0, DirectoryKind.Picture) != panasonic || parts.Directories.Count == 0 || parts.Directories[0][ExifTag.JpegOfRaw] is not { } jpeg) return;
        parts.AddPreview(jpeg.At, jpeg.Count);
        JpegSegments.Read(jpeg.At, parts);
    }

    private static void ReadRaf(PictureParts parts)
    {
        const int jpegAt = 84;
        if (!parts.Bytes.TryWhole(jpegAt, 4, isLittle: false, out var offset) || !parts.Bytes.TryWhole(jpegAt + 4, 4, isLittle: false, out var length)) return;
        parts.AddPreview(offset, length);
        JpegSegments.Read(offset, parts);
    }
}
