namespace Glowcast.Engine.Take;

/// <summary>EXIF in files of the ISO base media format: CR3 has it in boxes of its own, HEIF as an item.</summary>
/// <remarks>ISO/IEC 14496-12:2022, sections 4.2 (boxes), 8.11.3 (iloc) and 8.11.6 (iinf); ISO/IEC 23008-12, annex A (Exif).</remarks>
internal static class IsoMediaBoxes
{
    private const int MostBoxes = 256;

    // Of the box in moov in which CR3 keeps what the camera wrote.
    private static ReadOnlySpan<byte> Cr3Id => [0x85, 0xC0, 0xB6, 0x87, 0x82, 0x0F, 0x11, 0xE0, 0x81, 0x11, 0xF4, 0xCE, 0x46, 0x2B, 0x6A, 0x48];

    public static void Read(PictureParts parts)
    {
        foreach (var box in In(parts.Bytes, 0, parts.Bytes.Length))
        {
            if (box.Is("moov"u8)) ReadMovie(parts, box);
            if (box.Is("meta"u8)) HeifItems.Read(parts, box);
        }
    }

    /// <summary>Boxes one after another, as many as there are whole heads of.</summary>
    public static List<Box> In(PictureBytes bytes, long from, long to)
    {
        var boxes = new List<Box>();
        Span<byte> head = stackalloc byte[16];
        for (var at = from; boxes.Count < MostBoxes && at <= to - 8 && bytes.TryRead(at, head[..8]);)
        {
            var (size, inner) = (PictureBytes.WholeOf(head[..4], isLittle: false), at + 8);
            if (size == 0) size = to - at;
            else if (size == 1)
            {
                if (!bytes.TryRead(at, head)) break;
                (size, inner) = (PictureBytes.WholeOf(head[8..], isLittle: false), at + 16);
            }
            if (size < inner - at || size > to - at) break;
            boxes.Add(new Box((uint)PictureBytes.WholeOf(head[4..8], isLittle: false), inner, at + size));
            at += size;
        }
        return boxes;
    }

    private static void ReadMovie(PictureParts parts, Box movie)
    {
        var id = new byte[16];
        foreach (var box in In(parts.Bytes, movie.From, movie.To))
        {
            if (!box.Is("uuid"u8) || !parts.Bytes.TryRead(box.From, id) || !Cr3Id.SequenceEqual(id)) continue;
            foreach (var part in In(parts.Bytes, box.From + id.Length, box.To))
            {
                if (part.Is("CMT1"u8)) parts.AddTags(part.From, DirectoryKind.Picture);
                if (part.Is("CMT2"u8)) parts.AddTags(part.From, DirectoryKind.Exif);
                if (part.Is("CMT4"u8)) parts.AddTags(part.From, DirectoryKind.Gps);
            }
        }
    }
}

/// <param name="From">Where its content begins.</param>
/// <param name="To">Where it ends.</param>
internal readonly record struct Box(uint Kind, long From, long To)
{
    public bool Is(ReadOnlySpan<byte> kind) => Kind == (uint)PictureBytes.WholeOf(kind, isLittle: false);
}
