using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using BitMiracle.LibJpeg.Classic;

namespace Glowcast.Cli.Tests;

/// <summary>A folder with two sets of nine frames, each after a marker frame, and a plan of them; it goes when the tests are over.
/// The frames show waves, the marker frames nothing.</summary>
public sealed class MadeTake : IDisposable
{
    private const double StepS = 4.02;
    private static readonly DateTime Start = new(2026, 2, 14, 6, 45, 0, DateTimeKind.Unspecified);

    public MadeTake()
    {
        Directory.CreateDirectory(Originals);
        var (number, seconds) = (1, 0.0);
        for (var set = 0; set < 2; set++)
        {
            Write(Name(number++), seconds, looksAt: null);
            for (var frame = 0; frame < 9; frame++) Write(Name(number++), seconds + 2.5 + (frame * StepS), looksAt: frame * 0.6);
            seconds += 45;
        }
        File.WriteAllText(Plan, """
            {
              "span": { "fromDeg": 245, "toDeg": 330 },
              "camera": { "sensorWidthMm": 36, "sensorHeightMm": 24, "pixelsWide": 8256, "pixelsHigh": 5504 },
              "lens": { "focalLengthMm": 135, "aperture": 11 },
              "set": { "orientation": "landscape", "columns": 7, "rows": 1, "spareFrames": 1, "repeats": 1 }
            }
            """);
    }

    public string Folder { get; } = Directory.CreateTempSubdirectory("glowcast-take-").FullName;

    public string Originals => Path.Combine(Folder, "card");

    public string Plan => Path.Combine(Folder, "plan.json");

    public static string Name(int number) => $"IMG_{number:0000}.jpg";

    public string Frame(int number) => Path.Combine(Originals, Name(number));

    public string Beside(string name) => Path.Combine(Folder, name);

    /// <param name="looksAt">Where the camera points, in widths of a frame; null for a hand before the lens.</param>
    public void Write(string name, double seconds, bool hasTime = true, double? looksAt = 0)
    {
        var picture = Picture(looksAt);
        File.WriteAllBytes(Path.Combine(Originals, name), [.. picture[..2], .. Exif(hasTime ? Start.AddSeconds(seconds) : null), .. picture[2..]]);
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static byte[] Picture(double? looksAt)
    {
        const int wide = 96, high = 64;
        var stream = new MemoryStream();
        var encoder = new jpeg_compress_struct(new jpeg_error_mgr());
        encoder.jpeg_stdio_dest(stream);
        (encoder.Image_width, encoder.Image_height, encoder.Input_components, encoder.In_color_space) = (wide, high, 1, J_COLOR_SPACE.JCS_GRAYSCALE);
        encoder.jpeg_set_defaults();
        encoder.jpeg_start_compress(true);
        for (var y = 0; y < high; y++)
            encoder.jpeg_write_scanlines([[.. Enumerable.Range(0, wide).Select(x => looksAt is { } left ? Wave(left + ((double)x / wide), (double)y / high) : (byte)2)]], 1);
        encoder.jpeg_finish_compress();
        return stream.ToArray();
    }

    private static byte Wave(double x, double y) => (byte)(128
        + (34 * Math.Sin((7 * x) + (3 * y))) + (22 * Math.Sin((23.3 * x) - (15 * y) + (3 * Math.Sin(5.1 * x)))) + (18 * Math.Sin((41.7 * x) + (19 * y) + (4 * Math.Sin(3.7 * x)))));

    // The EXIF segment of a JPEG (EXIF 2.32, section 4.5): one directory, and the Exif directory it points to.
    private static byte[] Exif(DateTime? taken)
    {
        const ushort ascii = 2, whole = 4, rational = 5;
        List<(ushort Tag, ushort Type, byte[] Value)> fields =
        [
            (0x829A, rational, Rational(1, 50)), (0x829D, rational, Rational(11, 1)), (0x8827, whole, Whole(100)), (0x920A, rational, Rational(135, 1)),
        ];
        if (taken is { } at)
        {
            fields.Insert(3, (0x9003, ascii, Text(at.ToString("yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture))));
            fields.Add((0x9291, ascii, Text(at.ToString("ff", CultureInfo.InvariantCulture))));
        }
        const int firstAt = 8, exifAt = 26;
        var tiff = new List<byte>([.. "II*\0"u8, .. Whole(firstAt), 1, 0, .. Field(0x8769, whole, 1, Whole(exifAt)), .. Whole(0), (byte)fields.Count, 0]);
        var data = new List<byte>();
        var dataAt = exifAt + 2 + (fields.Count * 12) + 4;
        foreach (var (tag, type, value) in fields)
        {
            tiff.AddRange(Field(tag, type, type == ascii ? value.Length : 1, value.Length <= 4 ? [.. value, .. new byte[4 - value.Length]] : Whole(dataAt + data.Count)));
            if (value.Length > 4) data.AddRange(value);
        }
        byte[] segment = [.. "Exif\0\0"u8, .. tiff, .. Whole(0), .. data];
        var length = segment.Length + 2;
        return [0xFF, 0xE1, (byte)(length >> 8), (byte)length, .. segment];
    }

    private static byte[] Field(ushort tag, ushort type, int count, byte[] value) => [(byte)tag, (byte)(tag >> 8), (byte)type, 0, .. Whole(count), .. value];

    private static byte[] Whole(int value)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(bytes, value);
        return bytes;
    }

    private static byte[] Rational(int numerator, int denominator) => [.. Whole(numerator), .. Whole(denominator)];

    private static byte[] Text(string text) => [.. Encoding.ASCII.GetBytes(text), 0];
}
