using System.Buffers.Binary;
using System.IO.Compression;

namespace Glowcast.Engine.Weather;

/// <summary>Values packed as the pixels of a PNG picture (template 5.41): the samples of a pixel are one whole number.</summary>
/// <remarks>Source: W3C, Portable Network Graphics (Third Edition); only what GRIB allows of it, without interlacing.</remarks>
internal static class PngValues
{
    private const int WidestPixels = 100_000;

    private static ReadOnlySpan<byte> Signature => [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    public static void Unpack(GribPacking packing, ReadOnlySpan<byte> data, Span<double> values)
    {
        if (!data.StartsWith(Signature)) throw new GribDamage("Its data are said to be a PNG picture and are not.");
        var compressed = new MemoryStream();
        (int Width, int Height, int PixelBits)? head = null;
        for (var rest = data[8..]; rest.Length >= 12;)
        {
            var length = BinaryPrimitives.ReadUInt32BigEndian(rest);
            if (length > rest.Length - 12) throw new GribDamage("A chunk of its PNG picture goes beyond the end.");
            var kind = rest.Slice(4, 4);
            var body = rest.Slice(8, (int)length);
            if (kind.SequenceEqual("IHDR"u8)) head = Head(body);
            else if (kind.SequenceEqual("IDAT"u8)) compressed.Write(body);
            else if (kind.SequenceEqual("IEND"u8)) break;
            rest = rest[((int)length + 12)..];
        }
        var (width, height, pixelBits) = head ?? throw new GribDamage("Its PNG picture has no head.");
        if ((long)width * height != values.Length) throw new GribDamage($"Its PNG picture has {width} × {height} pixels for {values.Length} values.");
        if (pixelBits != packing.Bits) throw new GribDamage($"Its PNG picture has {pixelBits} bits to a pixel; the header says {packing.Bits}.");
        compressed.Position = 0;
        using var pixels = new ZLibStream(compressed, CompressionMode.Decompress);
        Rows(packing, pixels, width, height, values);
    }

    private static (int Width, int Height, int PixelBits) Head(ReadOnlySpan<byte> body)
    {
        if (body.Length < 13) throw new GribDamage("The head of its PNG picture is too short.");
        var (width, height) = (BinaryPrimitives.ReadInt32BigEndian(body), BinaryPrimitives.ReadInt32BigEndian(body[4..]));
        var pixelBits = (body[9], body[8]) switch
        {
            (0, 1 or 2 or 4 or 8 or 16) => body[8],
            (2, 8) => 24,
            (6, 8) => 32,
            var (colour, depth) => throw new GribDamage($"Its PNG picture has colour type {colour} and {depth} bits to a sample; grey up to 16 bits, RGB and RGBA of 8 are read."),
        };
        if (body[12] != 0) throw new GribDamage("Its PNG picture is interlaced.");
        return width is > 0 and <= WidestPixels && height > 0 ? (width, height, pixelBits) : throw new GribDamage($"Its PNG picture of {width} × {height} pixels cannot be.");
    }

    private static void Rows(GribPacking packing, Stream pixels, int width, int height, Span<double> values)
    {
        var rowOctets = (int)((((long)width * packing.Bits) + 7) / 8);
        var (row, above) = (new byte[rowOctets + 1], new byte[rowOctets + 1]);
        for (var (y, next) = (0, 0); y < height; y++)
        {
            Fill(pixels, row);
            Unfilter(row, above, Math.Max(1, packing.Bits / 8));
            var reader = new BitReader(row.AsSpan(1));
            for (var x = 0; x < width; x++) values[next++] = packing.Value(reader.Read(packing.Bits));
            (row, above) = (above, row);
        }
    }

    private static void Fill(Stream pixels, byte[] row)
    {
        try
        {
            pixels.ReadExactly(row);
        }
        catch (Exception broken) when (broken is EndOfStreamException or InvalidDataException)
        {
            throw new GribDamage("The pixels of its PNG picture are damaged or end early.");
        }
    }

    /// <param name="row">The filter's number, then the octets.</param>
    private static void Unfilter(byte[] row, byte[] above, int pixelOctets)
    {
        for (var i = 1; i < row.Length; i++)
        {
            int left = i > pixelOctets ? row[i - pixelOctets] : 0, up = above[i], corner = i > pixelOctets ? above[i - pixelOctets] : 0;
            row[i] += row[0] switch
            {
                0 => 0,
                1 => (byte)left,
                2 => (byte)up,
                3 => (byte)((left + up) / 2),
                4 => (byte)Paeth(left, up, corner),
                var filter => throw new GribDamage($"Its PNG picture uses filter {filter}; 0 to 4 are known."),
            };
        }
    }

    private static int Paeth(int left, int up, int corner)
    {
        var guess = left + up - corner;
        var (a, b, c) = (Math.Abs(guess - left), Math.Abs(guess - up), Math.Abs(guess - corner));
        return a <= b && a <= c ? left : b <= c ? up : corner;
    }
}
