using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Take;

/// <summary>Reads what a camera wrote into a picture file: JPEG, TIFF, DNG and the raw files that are TIFF or ISO media files
/// within. The file is only read.</summary>
/// <remarks>The tags are those of EXIF 2.32 (CIPA DC-008-2019), and no others are looked at. Whatever a file claims, what is read of
/// it and what is worked on is bounded (<see cref="PictureBytes"/>, <see cref="TagWalk"/>, <see cref="DecodingBudget"/>): less than
/// <see cref="MostWorkingBytes"/> of memory, and a few seconds.</remarks>
public static class FrameReader
{
    /// <summary>No file takes more memory while it is read.</summary>
    public const long MostWorkingBytes = 256L << 20;

    /// <param name="file">Can be sought; read from its beginning.</param>
    /// <param name="name">Of the file, for the frame and for faults.</param>
    /// <exception cref="BadInputException">It is no picture file, or so broken that nothing can be read.</exception>
    public static ShotFrame Read(Stream file, string name)
    {
        ArgumentNullException.ThrowIfNull(file);
        var fields = new ExifFields(PictureFile.Read(file, name));
        var (glance, view) = PreviewGlance.Of(file, fields);
        return fields.FrameOf(name) with { Glance = glance, View = view };
    }

    /// <summary>A small picture in the file, as JPEG, to show to the user.</summary>
    /// <param name="mostBytes">A larger one is not taken.</param>
    /// <returns>Null where there is none.</returns>
    /// <exception cref="BadInputException">It is no picture file, or so broken that nothing can be read.</exception>
    public static byte[]? Thumbnail(Stream file, string name, int mostBytes)
    {
        ArgumentNullException.ThrowIfNull(file);
        var budget = new DecodingBudget();
        return PreviewGlance.In(file, new ExifFields(PictureFile.Read(file, name)), budget)
            .FirstOrDefault(jpeg => jpeg.Length <= mostBytes && JpegBrightness.Of(jpeg, budget) is not null);
    }
}
