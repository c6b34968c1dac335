using System.Globalization;
using BitMiracle.LibJpeg.Classic;
using BitMiracle.LibTiff.Classic;
using Glowcast.Engine.Take;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Small pictures without any metadata, and the tags that make them frames.</summary>
internal static class MadePictures
{
    public const int Wide = 96;
    public const int High = 72;

    /// <summary>A JPEG that looks like a glance, stored as the camera would store a picture that lies so.</summary>
    public static byte[] Jpeg(Glance glance)
    {
        var stream = new MemoryStream();
        var encoder = new jpeg_compress_struct(new jpeg_error_mgr());
        encoder.jpeg_stdio_dest(stream);
        (encoder.Image_width, encoder.Image_height, encoder.Input_components, encoder.In_color_space) = (Wide, High, 1, J_COLOR_SPACE.JCS_GRAYSCALE);
        encoder.jpeg_set_defaults();
        encoder.jpeg_set_quality(95, true);
        encoder.jpeg_start_compress(true);
        foreach (var line in Lines(glance)) encoder.jpeg_write_scanlines([line], 1);
        encoder.jpeg_finish_compress();
        return stream.ToArray();
    }

    /// <summary>An uncompressed TIFF 6.0 of the same.</summary>
    public static void WriteTiff(string path, Glance glance)
    {
        using var tiff = Tiff.Open(path, "w");
        tiff.SetField(TiffTag.IMAGEWIDTH, Wide);
        tiff.SetField(TiffTag.IMAGELENGTH, High);
        tiff.SetField(TiffTag.BITSPERSAMPLE, 8);
        tiff.SetField(TiffTag.SAMPLESPERPIXEL, 1);
        tiff.SetField(TiffTag.PHOTOMETRIC, Photometric.MINISBLACK);
        foreach (var (y, line) in Lines(glance).Index()) tiff.WriteScanline(line, y);
    }

    /// <summary>The tags of a frame, for exiftool; the values of those with a # are numbers.</summary>
    public static IEnumerable<string> Tags(ShotFrame frame)
    {
        var settings = frame.Settings;
        yield return $"EXIF:Make={frame.Camera.Split(' ')[0]}";
        yield return $"EXIF:Model={frame.Camera.Split(' ')[1]}";
        yield return string.Create(CultureInfo.InvariantCulture, $"EXIF:DateTimeOriginal={frame.Taken:uuuu:MM:dd HH:mm:ss}");
        if (frame.HasSubSeconds) yield return string.Create(CultureInfo.InvariantCulture, $"EXIF:SubSecTimeOriginal={frame.Taken:ff}");
        yield return string.Create(CultureInfo.InvariantCulture, $"EXIF:ExposureTime#={settings.Exposure!.Value.TotalSeconds}");
        yield return string.Create(CultureInfo.InvariantCulture, $"EXIF:FNumber#={settings.Aperture}");
        yield return string.Create(CultureInfo.InvariantCulture, $"EXIF:ISO#={settings.Iso}");
        yield return string.Create(CultureInfo.InvariantCulture, $"EXIF:FocalLength#={settings.FocalLength!.Value.Millimetres}");
        yield return "EXIF:WhiteBalance#=1";
        yield return string.Create(CultureInfo.InvariantCulture, $"EXIF:Orientation#={settings.Lie}");
    }

    // The stored picture of a frame that lies 8 is seen turned: its row 0 is at the left, its column 0 at the bottom (EXIF 2.32, 0x0112).
    private static IEnumerable<byte[]> Lines(Glance glance) => Enumerable.Range(0, High).Select(y =>
        Enumerable.Range(0, Wide).Select(x => ToSrgb(glance[Glance.Rows - 1 - (x * Glance.Rows / Wide), y * Glance.Columns / High])).ToArray());

    private static byte ToSrgb(float stops)
    {
        var linear = Math.Pow(2, stops);
        return (byte)Math.Round(255 * (linear <= 0.0031308 ? 12.92 * linear : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055));
    }
}
