using System.Buffers.Binary;
using System.IO.Compression;

namespace Glowcast.Server.Grids;

/// <summary>Writes a grey picture of 8 bits a pixel as PNG; black (0) is transparent.</summary>
/// <remarks>W3C, Portable Network Graphics Specification (Third Edition): chunks, section 11; CRC, annex D.</remarks>
internal static class GreyPng
{
    private const int CrcBytes = 4;

    private static readonly uint[] CrcOfByte = [.. Enumerable.Range(0, 256).Select(n =>
    {
        var crc = (uint)n;
        for (var bit = 0; bit < 8; bit++) crc = (crc & 1) == 1 ? 0xEDB88320 ^ (crc >> 1) : crc >> 1;
        return crc;
    })];

    /// <param name="pixels">Row by row from the top.</param>
    public static byte[] Write(ReadOnlySpan<byte> pixels, int width, int height)
    {
        using var png = new MemoryStream();
        png.Write([0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A]);
        WriteChunk(png, "IHDR"u8, Header(width, height));
        WriteChunk(png, "tRNS"u8, [0, 0]);
        WriteChunk(png, "IDAT"u8, Packed(pixels, width));
        WriteChunk(png, "IEND"u8, []);
        return png.ToArray();
    }

    private static byte[] Header(int width, int height)
    {
        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), height);
        header[8] = 8;
        return header;
    }

    // Each row begins with its filter: 1, the difference from the pixel before, which suits slopes.
    private static byte[] Packed(ReadOnlySpan<byte> pixels, int width)
    {
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.Fastest))
        {
            var row = new byte[width + 1];
            row[0] = 1;
            for (; !pixels.IsEmpty; pixels = pixels[width..])
            {
                for (var i = 0; i < width; i++) row[i + 1] = (byte)(pixels[i] - (i == 0 ? 0 : pixels[i - 1]));
                zlib.Write(row);
            }
        }
        return packed.ToArray();
    }

    private static void WriteChunk(MemoryStream png, ReadOnlySpan<byte> type, ReadOnlySpan<byte> content)
    {
        Span<byte> number = stackalloc byte[CrcBytes];
        BinaryPrimitives.WriteInt32BigEndian(number, content.Length);
        png.Write(number);
        png.Write(type);
        png.Write(content);
        BinaryPrimitives.WriteUInt32BigEndian(number, Crc(Crc(uint.MaxValue, type), content) ^ uint.MaxValue);
        png.Write(number);
    }

    private static uint Crc(uint crc, ReadOnlySpan<byte> bytes)
    {
        foreach (var value in bytes) crc = CrcOfByte[(crc ^ value) & 0xFF] ^ (crc >> 8);
        return crc;
    }
}
