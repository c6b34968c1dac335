using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>One SRTM tile in a .zip, as the archives hand them out.</summary>
/// <remarks>The entry's name only tells the tile's place; nothing is ever written by it. The tile is read as it unfolds,
/// and no further than a tile goes; then its checksum must be right (CRC-32; PKWARE APPNOTE 6.3.10, section 4.4.7).</remarks>
internal sealed class ZippedHgtFormat : IGridFormat
{
    public string Name => "zipped SRTM .zip";

    public bool Recognises(string fileName) => fileName.EndsWith(".zip", StringComparison.OrdinalIgnoreCase);

    public GridSource Open(Stream stream, string fileName)
    {
        var (tileName, bytes) = Unfolding(fileName, () =>
        {
            using var archive = new ZipArchive(stream, ZipArchiveMode.Read, leaveOpen: true);
            return archive.Entries is [var entry] && HgtFormat.IsTile(entry.Name)
                ? (Name: ConfirmedName(stream, entry, fileName), entry.Length)
                : throw new BadInputException(fileName, $"Holds {archive.Entries.Count} files; a zipped tile holds one, and it is an .hgt.");
        });
        return Unfolding(fileName, () => new ZippedTile(stream, fileName, tileName, HgtFormat.PostsOf(tileName, bytes)));
    }

    // The name places the tile, and no checksum guards it; but it stands in the archive twice.
    private static string ConfirmedName(Stream stream, ZipArchiveEntry entry, string fileName)
    {
        const int nameAt = 30;
        var head = new byte[nameAt];
        stream.Position = 0;
        if (stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false) < head.Length || !head.AsSpan().StartsWith("PK\u0003\u0004"u8)) return entry.Name;
        var name = new byte[BinaryPrimitives.ReadUInt16LittleEndian(head.AsSpan(26))];
        stream.ReadExactly(name);
        return Encoding.UTF8.GetString(name).EndsWith(entry.Name, StringComparison.Ordinal)
            ? entry.Name
            : throw new BadInputException(fileName, $"Calls its tile '{Shortened.To80(entry.Name)}' in one place and otherwise in another: it is damaged.");
    }

    /// <summary>What goes wrong in the archive, or with the tile in it, is a fault of the file.</summary>
    private static T Unfolding<T>(string fileName, Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception fault) when (fault is InvalidDataException or IOException or NotSupportedException or ArgumentException)
        {
            throw new BadInputException(fileName, "Is no sound zip file: it is cut off or damaged.");
        }
        catch (BadInputException refusal) when (refusal.Faults.Any(fault => HgtFormat.IsTile(fault.Field)))
        {
            throw new BadInputException([.. refusal.Faults.Select(fault => new Fault(fileName, $"{fault.Field} in it: {fault.Message}"))]);
        }
    }

    private sealed class ZippedTile(Stream stream, string fileName, string tileName, GridPosts posts) : GridSource(tileName, posts, VerticalDatums.Egm96)
    {
        private protected override void ReadPieces(GridWindow window, TakeHeights take) => Unfolding(fileName, () =>
        {
            using var archive = new ZipArchive(stream, ZipArchiveMode.Read, leaveOpen: true);
            var entry = archive.Entries[0];
            using var content = new ChecksummedStream(entry.Open());
            HgtSource.ReadRows(content, Posts, take);
            if (content.ReadByte() >= 0) throw new BadInputException(fileName, $"Holds more of {Name} than it says: it is damaged.");
            if (content.Crc32 != entry.Crc32) throw new BadInputException(fileName, $"Its tile {Name} does not add up to the checksum that stands beside it: it is damaged.");
            return true;
        });
    }
}
