using System.Globalization;
using BitMiracle.LibJpeg.Classic;
using NodaTime;

namespace Glowcast.Engine.Tests.Take;

/// <summary>A picture file as a camera writes it: JPEG with an EXIF segment and a thumbnail in it.</summary>
/// <remarks>EXIF 2.32 (CIPA DC-008-2019), section 4.5: two directories, the Exif directory, and the thumbnail after them.</remarks>
internal static class FrameFile
{
    private const ushort Ascii = 2, Short = 3, Whole = 4, Rational = 5;

    public sealed record Tags(
        string Make, string Model, string Serial, LocalDateTime? Taken, bool HasSubSeconds, double ExposureS, double Aperture, int Iso, double FocalLengthMm, int Lie,
        int PixelsWide, int PixelsHigh);

    /// <param name="thumbnail">A JPEG; null for none.</param>
    public static byte[] Of(byte[] picture, byte[]? thumbnail, Tags tags)
    {
        var first = new Directory([(0x010F, Text(tags.Make)), (0x0110, Text(tags.Model)), (0x0112, Shorts(tags.Lie))]);
        List<(ushort, (ushort, int, byte[]))> exif =
        [
            (0x829A, Ratio((int)Math.Round(tags.ExposureS * 1e6), 1_000_000)), (0x829D, Ratio((int)Math.Round(tags.Aperture * 10), 10)), (0x8827, Shorts(tags.Iso)),
            (0x920A, Ratio((int)Math.Round(tags.FocalLengthMm * 10), 10)), (0xA002, Wholes(tags.PixelsWide)), (0xA003, Wholes(tags.PixelsHigh)), (0xA403, Shorts(1)), (0xA431, Text(tags.Serial)),
        ];
        if (tags.Taken is { } taken)
        {
            exif.Add((0x9003, Text(taken.ToString("uuuu:MM:dd HH:mm:ss", CultureInfo.InvariantCulture))));
            if (tags.HasSubSeconds) exif.Add((0x9291, Text(taken.ToString("ff", CultureInfo.InvariantCulture))));
        }
        const int start = 8;
        var exifDirectory = new Directory(exif);
        var exifAt = start + first.LengthWith(1);
        var secondAt = exifAt + exifDirectory.LengthWith(0);
        var second = new Directory([(0x0103, Shorts(6))]);
        var thumbnailAt = secondAt + second.LengthWith(2);
        byte[] tiff =
        [
            .. "II*\0"u8, .. BitConverter.GetBytes(start),
            .. first.Bytes(start, thumbnail is null ? 0 : secondAt, [(0x8769, Wholes(exifAt))]),
            .. exifDirectory.Bytes(exifAt, 0, []),
            .. thumbnail is null ? [] : second.Bytes(secondAt, 0, [(0x0201, Wholes(thumbnailAt)), (0x0202, Wholes(thumbnail.Length))]),
            .. thumbnail ?? [],
        ];
        var length = tiff.Length + 8;
        return [0xFF, 0xD8, 0xFF, 0xE1, (byte)(length >> 8), (byte)length, .. "Exif\0\0"u8, .. tiff, .. picture[2..]];
    }

    /// <param name="gray">Row by row, in the encoding of sRGB.</param>
    public static byte[] Jpeg(byte[] gray, int wide, int high, int quality)
    {
        var stream = new MemoryStream();
        var encoder = new jpeg_compress_struct(new jpeg_error_mgr());
        encoder.jpeg_stdio_dest(stream);
        (encoder.Image_width, encoder.Image_height, encoder.Input_components, encoder.In_color_space) = (wide, high, 1, J_COLOR_SPACE.JCS_GRAYSCALE);
        encoder.jpeg_set_defaults();
        encoder.jpeg_set_quality(quality, true);
        encoder.jpeg_start_compress(true);
        for (var y = 0; y < high; y++) encoder.jpeg_write_scanlines([gray[(y * wide)..((y + 1) * wide)]], 1);
        encoder.jpeg_finish_compress();
        return stream.ToArray();
    }

    private static (ushort, int, byte[]) Text(string text) => (Ascii, text.Length + 1, [.. System.Text.Encoding.ASCII.GetBytes(text), 0]);

    private static (ushort, int, byte[]) Shorts(int value) => (Short, 1, BitConverter.GetBytes((ushort)value));

    private static (ushort, int, byte[]) Wholes(int value) => (Whole, 1, BitConverter.GetBytes(value));

    private static (ushort, int, byte[]) Ratio(int above, int below) => (Rational, 1, [.. BitConverter.GetBytes(above), .. BitConverter.GetBytes(below)]);

    private sealed class Directory(IReadOnlyList<(ushort Tag, (ushort Type, int Count, byte[] Data) Value)> fields)
    {
        public int LengthWith(int more) => 6 + (12 * (fields.Count + more)) + fields.Sum(field => field.Value.Data.Length > 4 ? Even(field.Value.Data.Length) : 0);

        public byte[] Bytes(int at, int next, IReadOnlyList<(ushort Tag, (ushort Type, int Count, byte[] Data) Value)> more)
        {
            var all = fields.Concat(more).OrderBy(field => field.Tag).ToList();
            var dataAt = at + 6 + (12 * all.Count);
            var (entries, data) = (new List<byte>(BitConverter.GetBytes((ushort)all.Count)), new List<byte>());
            foreach (var (tag, (type, count, value)) in all)
            {
                entries.AddRange([.. BitConverter.GetBytes(tag), .. BitConverter.GetBytes(type), .. BitConverter.GetBytes(count)]);
                entries.AddRange(value.Length > 4 ? BitConverter.GetBytes(dataAt + data.Count) : [.. value, .. new byte[4 - value.Length]]);
                if (value.Length > 4) data.AddRange([.. value, .. new byte[Even(value.Length) - value.Length]]);
            }
            return [.. entries, .. BitConverter.GetBytes(next), .. data];
        }

        private static int Even(int length) => length + (length % 2);
    }
}
