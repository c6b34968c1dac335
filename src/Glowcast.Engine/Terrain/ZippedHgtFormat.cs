using System.IO.Compression;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>One SRTM tile in a .zip, as the archives hand them out.</summary>
/// <remarks>The entry's name only tells the tile's place; nothing is ever written by it. No more bytes are unfolded than
/// the largest tile has.</remarks>
internal sealed class ZippedHgtFormat : IGridFormat
{
    private static readonly HgtFormat Hgt = new();

    public string Name => "zipped SRTM .zip";

    public bool Recognises(string fileName) => fileName.EndsWith(".zip", StringComparison.OrdinalIgnoreCase);

    public ElevationGrid Read(Stream stream, string fileName)
    {
        var (name, tile) = Unfold(stream, fileName);
        try
        {
            return Hgt.Read(tile, name);
        }
        catch (BadInputException refusal)
        {
            throw new BadInputException([.. refusal.Faults.Select(fault => new Fault(fileName, $"{name} in it: {fault.Message}"))]);
        }
    }

    private static (string Name, MemoryStream Tile) Unfold(Stream stream, string fileName)
    {
        try
        {
            using var archive = new ZipArchive(stream, ZipArchiveMode.Read, leaveOpen: true);
            if (archive.Entries is not [var entry] || !Hgt.Recognises(entry.Name))
                throw new BadInputException(fileName, $"Holds {archive.Entries.Count} files; a zipped tile holds one, and it is an .hgt.");
            using var content = entry.Open();
            return (entry.Name, FirstBytes(content, HgtFormat.MostBytes + 1));
        }
        catch (Exception fault) when (fault is InvalidDataException or IOException or NotSupportedException or ArgumentException)
        {
            throw new BadInputException(fileName, $"Is no sound zip file: {fault.Message}");
        }
    }

    private static MemoryStream FirstBytes(Stream content, int most)
    {
        var bytes = new MemoryStream();
        var part = new byte[1 << 16];
        int read;
        while (bytes.Length < most && (read = content.Read(part, 0, (int)Math.Min(part.Length, most - bytes.Length))) > 0) bytes.Write(part, 0, read);
        bytes.Position = 0;
        return bytes;
    }
}
