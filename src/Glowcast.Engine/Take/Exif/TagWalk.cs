namespace Glowcast.Engine.Take;

/// <summary>Goes through the directories of TIFF structures and gathers the tags that are wanted; notes of makers, XMP, profiles of
/// colour and whatever else there is are never looked at.</summary>
/// <remarks>TIFF 6.0, section 2. Each directory is read once, so there are no circles and no depth; of all directories of a file
/// no more than <see cref="MostDirectories"/>, of the entries of one no more than <see cref="MostEntries"/>. What lies beyond the end
/// of the file is passed over.</remarks>
internal sealed class TagWalk(PictureBytes bytes)
{
    public const int MostDirectories = 64;
    public const int MostEntries = 1000;
    private const int MostSubDirectories = 8;
    private const int EntryBytes = 12;

    private readonly List<TagDirectory> directories = [];
    private readonly HashSet<long> seen = [];

    public IReadOnlyList<TagDirectory> Directories => directories;

    /// <summary>Reads the structure that begins at a place of the file.</summary>
    /// <param name="kind">What its first directory speaks of.</param>
    /// <returns>The number after its byte order, which tells formats apart; null where there is no such structure.</returns>
    public int? Read(long start, DirectoryKind kind)
    {
        Span<byte> head = stackalloc byte[8];
        if (!bytes.TryRead(start, head) || OrderOf(head) is not { } isLittle) return null;
        var open = new Queue<(long Offset, DirectoryKind Kind)>();
        open.Enqueue((PictureBytes.WholeOf(head[4..], isLittle), kind));
        while (open.TryDequeue(out var next) && directories.Count < MostDirectories)
        {
            if (seen.Add(start + next.Offset)) ReadDirectory(start, next.Offset, next.Kind, isLittle, open);
        }
        return (int)PictureBytes.WholeOf(head[2..4], isLittle);
    }

    private static bool? OrderOf(ReadOnlySpan<byte> head) => (head[0], head[1]) switch
    {
        ((byte)'I', (byte)'I') => true,
        ((byte)'M', (byte)'M') => false,
        _ => null,
    };

    private void ReadDirectory(long start, long offset, DirectoryKind kind, bool isLittle, Queue<(long, DirectoryKind)> open)
    {
        var at = start + offset;
        if (!bytes.TryWhole(at, 2, isLittle, out var count)) return;
        var tags = new Dictionary<int, TagValue>();
        for (var i = 0; i < Math.Min(count, MostEntries); i++)
        {
            if (ReadEntry(start, at + 2 + (i * EntryBytes), kind, isLittle) is var (tag, value)) tags.TryAdd(tag, value);
        }
        var directory = new TagDirectory(kind, start, tags);
        directories.Add(directory);
        Follow(directory, open);
        if (kind is DirectoryKind.Picture or DirectoryKind.Preview && bytes.TryWhole(at + 2 + (count * EntryBytes), 4, isLittle, out var next) && next > 0)
            open.Enqueue((next, DirectoryKind.Preview));
    }

    private (int Tag, TagValue Value)? ReadEntry(long start, long at, DirectoryKind kind, bool isLittle)
    {
        Span<byte> entry = stackalloc byte[EntryBytes];
        if (!bytes.TryRead(at, entry)) return null;
        var tag = (int)PictureBytes.WholeOf(entry[..2], isLittle);
        var type = (TagType)PictureBytes.WholeOf(entry[2..4], isLittle);
        var size = TagValue.SizeOf(type);
        if (!TagDirectory.IsWanted(kind, tag) || size == 0) return null;
        var count = PictureBytes.WholeOf(entry[4..8], isLittle);
        var place = count * size <= 4 ? at + 8 : start + PictureBytes.WholeOf(entry[8..], isLittle);
        var held = new byte[Math.Min(count * size, TagValue.MostBytes / size * size)];
        return bytes.TryRead(place, held) ? (tag, new TagValue(type, count, place, held, isLittle)) : null;
    }

    private static void Follow(TagDirectory directory, Queue<(long, DirectoryKind)> open)
    {
        if (directory.Kind == DirectoryKind.Gps) return;
        var sub = directory[ExifTag.SubDirectories];
        for (var i = 0; i < Math.Min(sub?.Held ?? 0, MostSubDirectories); i++) Open(sub?.WholeAt(i), DirectoryKind.Picture);
        Open(directory[ExifTag.ExifDirectory]?.WholeAt(0), DirectoryKind.Exif);
        Open(directory[ExifTag.GpsDirectory]?.WholeAt(0), DirectoryKind.Gps);

        void Open(long? offset, DirectoryKind kind)
        {
            if (offset is > 0 and { } known) open.Enqueue((known, kind));
        }
    }
}
