namespace Glowcast.Engine.Take;

/// <summary>Finds the item of HEIF that is EXIF.</summary>
/// <remarks>ISO/IEC 14496-12:2022, sections 8.11.3 (iloc) and 8.11.6 (iinf); ISO/IEC 23008-12, annex A.</remarks>
internal static class HeifItems
{
    private const int MostItems = 2000;
    private const int MostExtents = 32;

    public static void Read(PictureParts parts, Box meta)
    {
        // A full box: a version and flags come first.
        var boxes = IsoMediaBoxes.In(parts.Bytes, meta.From + 4, meta.To);
        var items = boxes.Where(box => box.Is("iinf"u8)).SelectMany(box => ExifItems(parts.Bytes, box)).ToHashSet();
        if (items.Count == 0) return;
        foreach (var at in boxes.Where(box => box.Is("iloc"u8)).SelectMany(box => Places(parts.Bytes, box, items)).ToList())
        {
            // How far the TIFF structure lies behind this number.
            if (parts.Bytes.TryWhole(at, 4, isLittle: false, out var gap)) parts.AddTags(at + 4 + gap, DirectoryKind.Picture);
        }
    }

    private static List<long> ExifItems(PictureBytes bytes, Box info)
    {
        var items = new List<long>();
        var cursor = new Cursor(bytes, info.From);
        var first = cursor.Next(1) == 0 ? info.From + 6 : info.From + 8;
        foreach (var entry in IsoMediaBoxes.In(bytes, first, info.To))
        {
            var inner = new Cursor(bytes, entry.From);
            var version = inner.Next(1);
            inner.Skip(3);
            var id = inner.Next(version >= 3 ? 4 : 2);
            inner.Skip(2);
            if (entry.Is("infe"u8) && version >= 2 && inner.Next(4) == 0x45786966) items.Add(id); // Exif
        }
        return items;
    }

    // Items that lie in the file itself and in one piece.
    private static List<long> Places(PictureBytes bytes, Box locations, HashSet<long> items)
    {
        var places = new List<long>();
        var cursor = new Cursor(bytes, locations.From);
        var version = cursor.Next(1);
        cursor.Skip(3);
        var sizes = cursor.Next(2);
        var (offsetSize, lengthSize, baseSize, indexSize) = ((int)(sizes >> 12) & 15, (int)(sizes >> 8) & 15, (int)(sizes >> 4) & 15, version > 0 ? (int)sizes & 15 : 0);
        if (Math.Max(Math.Max(offsetSize, lengthSize), Math.Max(baseSize, indexSize)) > 8) return places;
        var count = cursor.Next(version < 2 ? 2 : 4);
        for (var item = 0; item < Math.Min(count, MostItems) && cursor.IsSound; item++)
        {
            var id = cursor.Next(version < 2 ? 2 : 4);
            var method = version > 0 ? cursor.Next(2) & 15 : 0;
            cursor.Skip(2);
            var from = cursor.Next(baseSize);
            var extents = cursor.Next(2);
            if (extents > MostExtents) return places;
            for (var extent = 0; extent < extents; extent++)
            {
                cursor.Skip(indexSize);
                var offset = cursor.Next(offsetSize);
                cursor.Skip(lengthSize);
                if (method == 0 && extents == 1 && cursor.IsSound && items.Contains(id)) places.Add(from + offset);
            }
        }
        return places;
    }

    /// <summary>Numbers one after another; 0 once there are no more.</summary>
    private sealed class Cursor(PictureBytes bytes, long at)
    {
        private long at = at;

        public bool IsSound { get; private set; } = true;

        public void Skip(int count) => at += count;

        public long Next(int size)
        {
            IsSound &= bytes.TryWhole(at, size, isLittle: false, out var number);
            at += size;
            return IsSound ? number : 0;
        }
    }
}
