using System.Buffers.Binary;
using System.IO.Compression;
using System.Security.Cryptography;

namespace Glowcast.Engine.Terrain;

/// <summary>A table of horizons as bytes, to be kept in a file or a store.</summary>
/// <remarks>Version, the number of points, the belt of latitudes, the first bytes of the SHA-256 of all the rest, and then, compressed,
/// the change from each direction to the next; all little-endian.</remarks>
public static class HorizonTableBytes
{
    // To be raised whenever a table with the same key could hold other values.
    private const int Version = 2;
    private const int FactsBytes = 24;
    private const int CheckBytes = 8;
    private const int HeaderBytes = FactsBytes + CheckBytes;

    // No scene has more points by far.
    private const int MostPoints = 4_000_000;

    public static byte[] Write(HorizonTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        var directions = table.Directions;
        var values = table.Values;
        var changes = new byte[values.Length * sizeof(short)];
        for (var i = 0; i < values.Length; i++)
        {
            var before = i % directions.Count == 0 ? 0 : values[i - 1];
            BinaryPrimitives.WriteInt16LittleEndian(changes.AsSpan(i * sizeof(short)), (short)(values[i] - before));
        }
        using var bytes = new MemoryStream();
        Span<byte> header = stackalloc byte[HeaderBytes];
        BinaryPrimitives.WriteInt32LittleEndian(header, Version);
        BinaryPrimitives.WriteInt32LittleEndian(header[4..], values.Length / Math.Max(1, directions.Count));
        BinaryPrimitives.WriteDoubleLittleEndian(header[8..], directions.SouthernmostRad);
        BinaryPrimitives.WriteDoubleLittleEndian(header[16..], directions.NorthernmostRad);
        bytes.Write(header);
        using (var packed = new BrotliStream(bytes, CompressionLevel.Fastest, leaveOpen: true)) packed.Write(changes);
        var written = bytes.ToArray();
        CheckOf(written).CopyTo(written, FactsBytes);
        return written;
    }

    /// <returns>Null where the bytes are of another version of this program.</returns>
    /// <exception cref="InvalidDataException">The bytes are damaged.</exception>
    public static HorizonTable? Read(byte[] bytes)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        if (bytes.Length < HeaderBytes) throw new InvalidDataException($"A table of horizons has at least {HeaderBytes} bytes; got {bytes.Length}.");
        if (BinaryPrimitives.ReadInt32LittleEndian(bytes) != Version) return null;
        if (!bytes.AsSpan(FactsBytes, CheckBytes).SequenceEqual(CheckOf(bytes))) throw new InvalidDataException("The table of horizons is not as it was written.");
        var points = BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(4));
        var (south, north) = (BinaryPrimitives.ReadDoubleLittleEndian(bytes.AsSpan(8)), BinaryPrimitives.ReadDoubleLittleEndian(bytes.AsSpan(16)));
        if (points is < 0 or > MostPoints || !(south >= -Math.PI / 2 && south <= north && north <= Math.PI / 2))
            throw new InvalidDataException($"No table of horizons has {points} points between latitudes {south} and {north} rad.");
        var directions = new HorizonDirections(south, north);
        var changes = Unpacked(bytes, (long)points * directions.Count * sizeof(short));
        var values = new short[changes.Length / sizeof(short)];
        for (var i = 0; i < values.Length; i++)
        {
            var before = i % directions.Count == 0 ? 0 : values[i - 1];
            values[i] = (short)(before + BinaryPrimitives.ReadInt16LittleEndian(changes.AsSpan(i * sizeof(short))));
        }
        return new HorizonTable(values, directions);
    }

    private static byte[] CheckOf(byte[] bytes)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(bytes.AsSpan(0, FactsBytes));
        hash.AppendData(bytes.AsSpan(HeaderBytes));
        return hash.GetHashAndReset()[..CheckBytes];
    }

    private static byte[] Unpacked(byte[] bytes, long length)
    {
        using var packed = new BrotliStream(new MemoryStream(bytes, HeaderBytes, bytes.Length - HeaderBytes), CompressionMode.Decompress);
        using var unpacked = new MemoryStream();
        var piece = new byte[1 << 16];
        // Grows with what is really there, whatever the header claims.
        for (int read; unpacked.Length <= length && (read = packed.Read(piece)) > 0;) unpacked.Write(piece, 0, read);
        return unpacked.Length == length ? unpacked.ToArray() : throw new InvalidDataException($"The table of horizons should unpack to {length} bytes.");
    }
}
