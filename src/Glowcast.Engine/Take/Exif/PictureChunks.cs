namespace Glowcast.Engine.Take;

/// <summary>EXIF in files that are made of chunks.</summary>
internal static class PictureChunks
{
    private const int MostChunks = 10_000;

    /// <summary>W3C, Portable Network Graphics Specification (Third Edition), section 5.2.</summary>
    public static ReadOnlySpan<byte> PngMark => [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>The chunk eXIf (same source, section 11.3.4.5).</summary>
    public static void ReadPng(PictureParts parts)
    {
        Span<byte> head = stackalloc byte[8];
        var at = (long)PngMark.Length;
        for (var chunk = 0; chunk < MostChunks && parts.Bytes.TryRead(at, head); chunk++)
        {
            if (head[4..].SequenceEqual("eXIf"u8)) parts.AddTags(at + head.Length, DirectoryKind.Picture);
            at += head.Length + PictureBytes.WholeOf(head[..4], isLittle: false) + 4;
        }
    }

    /// <summary>The chunk EXIF (RFC 9649, section 2.7.1.5); some writers put before it what JPEG has there.</summary>
    public static void ReadWebP(PictureParts parts)
    {
        Span<byte> head = stackalloc byte[14];
        var at = 12L;
        for (var chunk = 0; chunk < MostChunks && parts.Bytes.TryRead(at, head); chunk++)
        {
            var length = PictureBytes.WholeOf(head[4..8], isLittle: true);
            if (head.StartsWith("EXIF"u8)) parts.AddTags(at + 8 + (head[8..].SequenceEqual("Exif\0\0"u8) ? 6 : 0), DirectoryKind.Picture);
            at += 8 + length + (length & 1);
        }
    }
}
