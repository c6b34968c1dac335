namespace Glowcast.Server.Store;

/// <summary>The checksum of zip files: PKWARE APPNOTE 4.4.7, polynomial 0xEDB88320. The reader of zip files that we use does not look at it.</summary>
internal sealed class Crc32
{
    private static readonly uint[] Table = [.. Enumerable.Range(0, 256).Select(value => Enumerable.Range(0, 8).Aggregate((uint)value, (crc, _) => (crc & 1) == 0 ? crc >> 1 : (crc >> 1) ^ 0xEDB88320))];

    private uint state = uint.MaxValue;

    public uint Value => ~state;

    public void Append(ReadOnlySpan<byte> bytes)
    {
        foreach (var part in bytes) state = Table[(byte)(state ^ part)] ^ (state >> 8);
    }
}
