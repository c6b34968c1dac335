using System.IO.Compression;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>One SRTM tile in a .zip, as the archives hand them out.</summary>
/// <remarks>The entry's name only tells the tile's place; nothing is ever written by it. The tile is read as it unfolds,
/// and no further than a tile goes.</remarks>
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
                ? (entry.Name, entry.Length)
                : throw new BadInputException(fileName, $"Holds {archive.Entries.Count} files; a zipped tile holds one, and it is an .hgt.");
        });
        return Unfolding(fileName, () => new ZippedTile(stream, fileName, tileName, HgtFormat.PostsOf(tileName, bytes)));
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
            using var content = archive.Entries[0].Open();
            HgtSource.ReadRows(content, Posts, take);
            return true;
        });
    }
}
