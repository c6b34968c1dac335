using System.Collections.Frozen;

namespace Glowcast.Engine.Take;

/// <summary>What a directory of tags speaks of.</summary>
internal enum DirectoryKind
{
    /// <summary>The picture, or another of the same shot.</summary>
    Picture,

    /// <summary>How it was shot.</summary>
    Exif,

    /// <summary>Where and when, by a receiver.</summary>
    Gps,

    /// <summary>A smaller picture of it.</summary>
    Preview,
}

/// <summary>The tags of one directory that are wanted here.</summary>
/// <param name="Start">Where the TIFF structure begins that it belongs to: offsets in its values count from there.</param>
internal sealed record TagDirectory(DirectoryKind Kind, long Start, IReadOnlyDictionary<int, TagValue> Tags)
{
    private static readonly FrozenSet<int> Exif = [.. Enum.GetValues<ExifTag>().Select(tag => (int)tag)];
    private static readonly FrozenSet<int> Gps = [.. Enum.GetValues<GpsTag>().Select(tag => (int)tag)];

    public static bool IsWanted(DirectoryKind kind, int tag) => (kind == DirectoryKind.Gps ? Gps : Exif).Contains(tag);

    public TagValue? this[ExifTag tag] => Tags.GetValueOrDefault((int)tag);

    public TagValue? this[GpsTag tag] => Tags.GetValueOrDefault((int)tag);
}

/// <summary>Tags of EXIF 2.32 (CIPA DC-008-2019), sections 4.6.4 (TIFF) and 4.6.5 (Exif), of TIFF 6.0 and TIFF/EP.</summary>
internal enum ExifTag
{
    /// <summary>Of RW2: a JPEG of the picture.</summary>
    JpegOfRaw = 0x002E,
    ImageWidth = 0x0100,
    ImageLength = 0x0101,
    Compression = 0x0103,
    Make = 0x010F,
    Model = 0x0110,
    StripOffsets = 0x0111,
    Orientation = 0x0112,
    StripByteCounts = 0x0117,
    SubDirectories = 0x014A,
    JpegOffset = 0x0201,
    JpegLength = 0x0202,
    ExposureTime = 0x829A,
    FNumber = 0x829D,
    ExifDirectory = 0x8769,
    GpsDirectory = 0x8825,
    PhotographicSensitivity = 0x8827,
    RecommendedExposureIndex = 0x8832,
    DateTimeOriginal = 0x9003,
    DateTimeDigitized = 0x9004,
    OffsetTimeOriginal = 0x9011,
    OffsetTimeDigitized = 0x9012,
    ShutterSpeed = 0x9201,
    Aperture = 0x9202,
    SubjectDistance = 0x9206,
    FocalLength = 0x920A,
    SubSecTimeOriginal = 0x9291,
    SubSecTimeDigitized = 0x9292,
    PixelXDimension = 0xA002,
    PixelYDimension = 0xA003,
    WhiteBalance = 0xA403,
    BodySerialNumber = 0xA431,
}

/// <summary>Tags of EXIF 2.32, section 4.6.6.</summary>
internal enum GpsTag
{
    LatitudeRef = 0x0001,
    Latitude = 0x0002,
    LongitudeRef = 0x0003,
    Longitude = 0x0004,
    TimeStamp = 0x0007,
    DateStamp = 0x001D,
}
