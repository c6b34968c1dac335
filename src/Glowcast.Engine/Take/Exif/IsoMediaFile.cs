namespace Glowcast.Engine.Take;

/// <summary>EXIF in files of the ISO base media format: CR3 has it in boxes of its own, HEIF as an item.</summary>
internal static class IsoMediaFile
{
    // Of the box in moov in which CR3 keeps what the camera wrote.
    private static ReadOnlySpan<byte> Cr3Id => [0x85, 0xC0, 0xB6, 0x87, 0x82, 0x0F, 0x11, 0xE0, 0x81, 0x11, 0xF4, 0xCE, 0x46, 0x2B, 0x6A, 0x48];

    public static void Read(PictureParts parts)
    {
        foreach (var box in IsoMediaBoxes.In(parts.Bytes, 0, parts.Bytes.Length))
        {
            if (box.Is("moov"u8)) ReadMovie(parts, box);
            if (box.Is("meta"u8)) HeifItems.Read(parts, box);
        }
    }

    private static void ReadMovie(PictureParts parts, Box movie)
    {
        var id = new byte[16];
        foreach (var box in IsoMediaBoxes.In(parts.Bytes, movie.From, movie.To))
        {
            if (!box.Is("uuid"u8) || !parts.Bytes.TryRead(box.From, id) || !Cr3Id.SequenceEqual(id)) continue;
            foreach (var part in IsoMediaBoxes.In(parts.Bytes, box.From + id.Length, box.To))
            {
                if (part.Is("CMT1"u8)) parts.AddTags(part.From, DirectoryKind.Picture);
                if (part.Is("CMT2"u8)) parts.AddTags(part.From, DirectoryKind.Exif);
                if (part.Is("CMT4"u8)) parts.AddTags(part.From, DirectoryKind.Gps);
            }
        }
    }
}
