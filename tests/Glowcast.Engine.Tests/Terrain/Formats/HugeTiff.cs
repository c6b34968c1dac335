using System.Buffers.Binary;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>A GeoTIFF of 40,000 × 40,000 uncompressed 16-bit heights in tiles of 512 × 512, all but one of them sparse, as
/// GDAL writes them: posts every 10 m in UTM 32 north. Written by the specification of TIFF 6.0, byte by byte.</summary>
internal sealed class HugeTiff(int tileAcross, int tileDown)
{
    private const int Size = 40_000;
    private const int Tile = 512;
    private const int TilesAcross = ((Size - 1) / Tile) + 1;

    // So long that the claim of its size could be true of a well compressed file.
    private const int Length = 3_000_000;

    /// <summary>Of the one tile that is there, by row and column of it [m].</summary>
    public static int Height(int row, int column) => row + column;

    public MemoryStream Write()
    {
        var bytes = new byte[Length];
        "II*\0"u8.CopyTo(bytes);
        const int Tiles = TilesAcross * TilesAcross;
        const int Offsets = 1000;
        const int Counts = Offsets + (4 * Tiles);
        const int Samples = Counts + (4 * Tiles);
        WriteSamples(bytes.AsSpan(Samples));
        var there = (tileDown * TilesAcross) + tileAcross;
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(Offsets + (4 * there)), Samples);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(Counts + (4 * there)), 2 * Tile * Tile);
        WriteDoubles(bytes.AsSpan(500), 10, 10, 0);
        WriteDoubles(bytes.AsSpan(600), 0, 0, 0, 300_000, 5_400_000, 0);
        WriteShorts(bytes.AsSpan(700), 1, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 32632);
        WriteDirectory(
            bytes, (256, 4, 1, Size), (257, 4, 1, Size), (258, 3, 1, 16), (259, 3, 1, 1), (262, 3, 1, 1), (277, 3, 1, 1), (322, 3, 1, Tile), (323, 3, 1, Tile),
            (324, 4, Tiles, Offsets), (325, 4, Tiles, Counts), (339, 3, 1, 2), (33550, 12, 3, 500), (33922, 12, 6, 600), (34735, 3, 16, 700));
        return new MemoryStream(bytes);
    }

    private static void WriteSamples(Span<byte> target)
    {
        for (var i = 0; i < Tile * Tile; i++) BinaryPrimitives.WriteInt16LittleEndian(target[(2 * i)..], (short)Height(i / Tile, i % Tile));
    }

    private static void WriteDirectory(Span<byte> bytes, params (ushort Tag, short Type, int Count, int Value)[] entries)
    {
        const int At = 8;
        BinaryPrimitives.WriteInt32LittleEndian(bytes[4..], At);
        BinaryPrimitives.WriteInt16LittleEndian(bytes[At..], (short)entries.Length);
        for (var i = 0; i < entries.Length; i++)
        {
            var entry = bytes[(At + 2 + (12 * i))..];
            BinaryPrimitives.WriteUInt16LittleEndian(entry, entries[i].Tag);
            BinaryPrimitives.WriteInt16LittleEndian(entry[2..], entries[i].Type);
            BinaryPrimitives.WriteInt32LittleEndian(entry[4..], entries[i].Count);
            BinaryPrimitives.WriteInt32LittleEndian(entry[8..], entries[i].Value);
        }
    }

    private static void WriteDoubles(Span<byte> target, params double[] values)
    {
        for (var i = 0; i < values.Length; i++) BinaryPrimitives.WriteDoubleLittleEndian(target[(8 * i)..], values[i]);
    }

    private static void WriteShorts(Span<byte> target, params int[] values)
    {
        for (var i = 0; i < values.Length; i++) BinaryPrimitives.WriteUInt16LittleEndian(target[(2 * i)..], (ushort)values[i]);
    }
}
