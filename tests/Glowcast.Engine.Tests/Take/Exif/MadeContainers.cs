using System.Buffers.Binary;
using System.Text;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Files of the kinds that hold EXIF, with nothing in them but that; each by the source that its reader names.</summary>
internal static class MadeContainers
{
    public static byte[] Jpeg(byte[] tiff) => Jpeg([(0xE1, [.. "Exif\0\0"u8, .. tiff])]);

    /// <summary>Segments and an end, without a picture.</summary>
    public static byte[] Jpeg(IEnumerable<(byte Marker, byte[] Content)> segments) =>
        [0xFF, 0xD8, .. segments.SelectMany(segment => (byte[])[0xFF, segment.Marker, .. Big2(segment.Content.Length + 2), .. segment.Content]), 0xFF, 0xD9];

    public static byte[] Png(params (string Kind, byte[] Content)[] chunks) =>
        [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A, .. chunks.SelectMany(chunk => (byte[])[.. Big4(chunk.Content.Length), .. Letters(chunk.Kind), .. chunk.Content, 0, 0, 0, 0])];

    public static byte[] WebP(byte[] tiff)
    {
        var content = (byte[])[.. "VP8X"u8, 10, 0, 0, 0, .. new byte[10], .. "EXIF"u8, .. Little4(tiff.Length), .. tiff];
        return [.. "RIFF"u8, .. Little4(content.Length + 4), .. "WEBP"u8, .. content];
    }

    public static byte[] Raf(byte[] jpeg) => [.. "FUJIFILMCCD-RAW 0201"u8, .. new byte[64], .. Big4(100), .. Big4(jpeg.Length), .. new byte[8], .. jpeg];

    public static byte[] Cr3(byte[] picture, byte[] exif, byte[] gps) =>
    [
        .. Box("ftyp", "crx "u8), .. Box("moov", Box("uuid", Convert.FromHexString("85C0B687820F11E08111F4CE462B6A48"), Box("CMT1", picture), Box("CMT2", exif), Box("CMT4", gps))),
        .. Box("mdat", new byte[16]),
    ];

    public static byte[] Heif(byte[] tiff)
    {
        var info = Box("iinf", new byte[4], Big2(1), Box("infe", [2, 0, 0, 0], Big2(7), Big2(0), "Exif"u8.ToArray(), [0]));
        var start = Box("ftyp", "heic"u8);
        // Version 0: offsets and lengths of four bytes, no base; one item of one extent.
        byte[] Places(int at) => Box("iloc", [0, 0, 0, 0, 0x44, 0x00], Big2(1), Big2(7), Big2(0), Big2(1), Big4(at), Big4(tiff.Length + 10));
        var at = start.Length + Box("meta", new byte[4], info, Places(0)).Length + 8;
        return [.. start, .. Box("meta", new byte[4], info, Places(at)), .. Box("mdat", Big4(6), "Exif\0\0"u8.ToArray(), tiff)];
    }

    private static byte[] Box(string kind, ReadOnlySpan<byte> content) => Box(kind, content.ToArray());

    private static byte[] Box(string kind, params byte[][] content) => [.. Big4(8 + content.Sum(part => part.Length)), .. Letters(kind), .. content.SelectMany(part => part)];

    private static byte[] Letters(string text) => Encoding.ASCII.GetBytes(text);

    private static byte[] Big2(int number) => [(byte)(number >> 8), (byte)number];

    private static byte[] Big4(int number)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(bytes, number);
        return bytes;
    }

    private static byte[] Little4(int number)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(bytes, number);
        return bytes;
    }
}
