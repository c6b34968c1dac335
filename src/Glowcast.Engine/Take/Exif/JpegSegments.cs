namespace Glowcast.Engine.Take;

/// <summary>The segments of a JPEG before its picture: the size of the picture, and EXIF.</summary>
/// <remarks>ITU-T T.81, annex B; EXIF 2.32, section 4.7.</remarks>
internal static class JpegSegments
{
    private const int MostSteps = 4000;
    private const byte StartOfImage = 0xD8;
    private const byte EndOfImage = 0xD9;
    private const byte StartOfScan = 0xDA;
    private const byte Application1 = 0xE1;
    private const int HeadBytes = 10;

    public static bool Begin(ReadOnlySpan<byte> head) => head.StartsWith<byte>([0xFF, StartOfImage, 0xFF]);

    /// <param name="at">Where the JPEG begins.</param>
    public static void Read(long at, PictureParts parts)
    {
        Span<byte> head = stackalloc byte[HeadBytes];
        for (var step = 0; step < MostSteps && parts.Bytes.TryRead(at, head[..4]) && head[0] == 0xFF; step++)
        {
            var marker = head[1];
            if (marker is EndOfImage or StartOfScan) return;
            if (marker == 0xFF) at++;
            else if (StandsAlone(marker)) at += 2;
            else
            {
                var length = PictureBytes.WholeOf(head[2..4], isLittle: false);
                if (length < 2) return;
                if (parts.Bytes.TryRead(at, head)) ReadSegment(marker, head, at, parts);
                at += 2 + length;
            }
        }
    }

    private static void ReadSegment(byte marker, ReadOnlySpan<byte> head, long at, PictureParts parts)
    {
        if (marker == Application1 && head[4..].SequenceEqual("Exif\0\0"u8)) parts.AddTags(at + HeadBytes, DirectoryKind.Picture);
        if (IsFrame(marker)) parts.AddSize(PictureBytes.WholeOf(head[7..9], isLittle: false), PictureBytes.WholeOf(head[5..7], isLittle: false));
    }

    private static bool StandsAlone(byte marker) => marker is 0x01 or (>= 0xD0 and <= 0xD8);

    private static bool IsFrame(byte marker) => marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC);
}
