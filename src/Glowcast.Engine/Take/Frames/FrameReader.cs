using Glowcast.Engine.Measures;
using MetadataExtractor;
using Directory = MetadataExtractor.Directory;

namespace Glowcast.Engine.Take;

/// <summary>Reads what a camera wrote into a picture file: JPEG, TIFF, DNG and the raw files that are TIFF or ISO media files
/// within. The file is only read.</summary>
/// <remarks>The tags are those of EXIF 2.32 (CIPA DC-008-2019).</remarks>
public static class FrameReader
{
    /// <param name="file">Can be sought; read from its beginning.</param>
    /// <param name="name">Of the file, for the frame and for faults.</param>
    /// <exception cref="BadInputException">It is no picture file, or so broken that nothing can be read.</exception>
    public static ShotFrame Read(Stream file, string name)
    {
        ArgumentNullException.ThrowIfNull(file);
        var fields = new ExifFields(Directories(file, name));
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
        return PreviewGlance.In(file, new ExifFields(Directories(file, name)))
            .FirstOrDefault(jpeg => jpeg.Length <= mostBytes && JpegBrightness.Of(jpeg) is not null);
    }

    private static IReadOnlyList<Directory> Directories(Stream file, string name)
    {
        try
        {
            file.Position = 0;
            return ImageMetadataReader.ReadMetadata(file);
        }
        catch (ImageProcessingException)
        {
            throw new BadInputException(name, "Is no picture file that can be read: JPEG, TIFF, DNG or a camera's raw file.");
        }
        catch (Exception broken) when (broken is not OutOfMemoryException)
        {
            // Files come from anywhere; whatever the parser of one stumbles over, the others are read.
            throw new BadInputException(name, "Is broken: what the camera wrote into it cannot be read.");
        }
    }
}
