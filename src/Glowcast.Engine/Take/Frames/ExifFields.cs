using System.Globalization;
using Glowcast.Engine.Measures;
using MetadataExtractor;
using MetadataExtractor.Formats.Exif;
using MetadataExtractor.Formats.Jpeg;
using NodaTime;
using NodaTime.Text;
using Directory = MetadataExtractor.Directory;

namespace Glowcast.Engine.Take;

/// <summary>The EXIF fields of one file. What is missing, or makes no sense, is null.</summary>
/// <remarks>EXIF 2.32 (CIPA DC-008-2019), sections 4.6.4 (TIFF), 4.6.5 (Exif) and 4.6.6 (GPS); the number of each tag stands beside it.</remarks>
internal sealed class ExifFields(IReadOnlyList<Directory> directories)
{
    private const int OffsetTimeOriginal = 0x9011;
    private const int OffsetTimeDigitized = 0x9012;
    private const int SubSecTimeOriginal = 0x9291;
    private const int SubSecTimeDigitized = 0x9292;
    private const int RecommendedExposureIndex = 0x8832;
    private const int BodySerialNumber = 0xA431;
    private const int MoreThan16Bits = 65535;
    private const uint InfinitelyFar = 0xFFFFFFFF;

    private static readonly LocalDateTimePattern ExifTime = LocalDateTimePattern.CreateWithInvariantCulture("uuuu':'MM':'dd HH':'mm':'ss");
    private static readonly LocalDatePattern ExifDate = LocalDatePattern.CreateWithInvariantCulture("uuuu':'MM':'dd");
    private static readonly OffsetPattern ExifOffset = OffsetPattern.CreateWithInvariantCulture("+HH:mm");

    private readonly List<ExifDirectoryBase> exif =
        [.. directories.OfType<ExifDirectoryBase>().Where(directory => directory is not (ExifThumbnailDirectory or ExifInteropDirectory or GpsDirectory))];

    private readonly GpsDirectory? gps = directories.OfType<GpsDirectory>().FirstOrDefault();

    public IEnumerable<Directory> All => directories;

    public ShotFrame FrameOf(string name)
    {
        var (taken, hasSubSeconds, offset) = Time(ExifDirectoryBase.TagDateTimeOriginal, SubSecTimeOriginal, OffsetTimeOriginal)
            ?? Time(ExifDirectoryBase.TagDateTimeDigitized, SubSecTimeDigitized, OffsetTimeDigitized) ?? (null, false, null);
        return new ShotFrame(name)
        {
            Camera = string.Join(' ', new[] { Text(ExifDirectoryBase.TagMake), Text(ExifDirectoryBase.TagModel), Text(BodySerialNumber) }.OfType<string>()),
            Taken = taken,
            HasSubSeconds = hasSubSeconds,
            Offset = offset,
            GpsTime = GpsTime,
            Place = Place,
            Settings = Settings,
        };
    }

    public ShotSettings Settings
    {
        get
        {
            var (wide, high) = Size;
            return new ShotSettings
            {
                Exposure = Exposure is > 0 and < 100_000 and var seconds ? Duration.FromSeconds(seconds) : null,
                Aperture = Number(ExifDirectoryBase.TagFNumber) ?? PowerOfTwo(Number(ExifDirectoryBase.TagAperture) / 2),
                Iso = Iso,
                FocalLength = Number(ExifDirectoryBase.TagFocalLength) is > 0 and < 100_000 and var mm ? Length.FromMillimetres(mm) : null,
                FocusDistance = FocusDistance,
                WhiteBalance = Whole(ExifDirectoryBase.TagWhiteBalanceMode) switch { 0 => "automatic", 1 => "manual", _ => null }, // 0xA403
                Lie = Whole(ExifDirectoryBase.TagOrientation) is >= 1 and <= 8 and var lie ? lie : null, // 0x0112
                PixelsWide = wide,
                PixelsHigh = high,
            };
        }
    }

    // ExposureTime 0x829A, else ShutterSpeedValue 0x9201: −log₂ of it.
    private double? Exposure => Number(ExifDirectoryBase.TagExposureTime) ?? PowerOfTwo(-Number(ExifDirectoryBase.TagShutterSpeed));

    // PhotographicSensitivity 0x8827 ends at 65535; beyond, the recommended exposure index 0x8832 says it.
    private double? Iso => Number(ExifDirectoryBase.TagIsoEquivalent) is > 0 and < MoreThan16Bits and var iso ? iso
        : Number(RecommendedExposureIndex) is > 0 and var index ? index
        : null;

    // SubjectDistance 0x9206: a numerator of 0 says unknown, one of FFFFFFFF infinity.
    private Length? FocusDistance => Rational(ExifDirectoryBase.TagSubjectDistance) is { Numerator: > 0 and < InfinitelyFar, Denominator: > 0 } distance
        ? Length.FromMetres(distance.ToDouble())
        : null;

    // PixelXDimension 0xA002 and PixelYDimension 0xA003, else the largest picture in the file.
    private (int? Wide, int? High) Size => exif.Select(directory => (Wide: directory.TryGetInt32(ExifDirectoryBase.TagExifImageWidth, out var w) ? w : 0, High: directory.TryGetInt32(ExifDirectoryBase.TagExifImageHeight, out var h) ? h : 0))
        .Concat(exif.Select(directory => (Wide: directory.TryGetInt32(ExifDirectoryBase.TagImageWidth, out var w) ? w : 0, High: directory.TryGetInt32(ExifDirectoryBase.TagImageHeight, out var h) ? h : 0)))
        .Concat(directories.OfType<JpegDirectory>().Select(jpeg => (Wide: jpeg.TryGetInt32(JpegDirectory.TagImageWidth, out var w) ? w : 0, High: jpeg.TryGetInt32(JpegDirectory.TagImageHeight, out var h) ? h : 0)))
        .Where(size => size is { Wide: > 0, High: > 0 })
        .Select(size => ((int?)size.Wide, (int?)size.High))
        .DefaultIfEmpty((null, null)).MaxBy(size => (long)(size.Item1 ?? 0) * (size.Item2 ?? 0));

    // GPSDateStamp 0x001D and GPSTimeStamp 0x0007, in UTC.
    private Instant? GpsTime
    {
        get
        {
            if (gps?.GetString(GpsDirectory.TagDateStamp) is not { } text || !ExifDate.Parse(text.Trim('\0', ' ')).TryGetValue(default, out var date) || !IsLikely(date.Year)) return null;
            if (gps.GetRationalArray(GpsDirectory.TagTimeStamp) is not { Length: 3 } parts || parts.Any(part => part.Denominator == 0)) return null;
            var seconds = (parts[0].ToDouble() * 3600) + (parts[1].ToDouble() * 60) + parts[2].ToDouble();
            return seconds is >= 0 and < 86_401 ? date.AtMidnight().InUtc().ToInstant() + Duration.FromSeconds(seconds) : null;
        }
    }

    private GeoPoint? Place => gps?.GetGeoLocation() is { IsZero: false, Latitude: >= -90 and <= 90, Longitude: >= -180 and <= 180 } place
        ? GeoPoint.FromDegrees(place.Latitude, place.Longitude)
        : null;

    // DateTimeOriginal 0x9003 with SubSecTimeOriginal 0x9291 and OffsetTimeOriginal 0x9011, and so on. A camera whose clock was
    // never set writes blanks or zeros, a broken one any year: no time.
    private (LocalDateTime? Taken, bool HasSubSeconds, Offset? Offset)? Time(int time, int subSeconds, int offset)
    {
        if (Text(time) is not { } text || !ExifTime.Parse(text).TryGetValue(default, out var taken) || !IsLikely(taken.Year)) return null;
        var fraction = Text(subSeconds) is { } digits && digits.All(char.IsAsciiDigit) ? $"0.{digits}" : null;
        var nanoseconds = fraction is null ? 0 : (long)(double.Parse(fraction, CultureInfo.InvariantCulture) * NodaConstants.NanosecondsPerSecond);
        var zone = Text(offset) is { } sign && ExifOffset.Parse(sign).TryGetValue(default, out var known) ? known : (Offset?)null;
        return (taken.PlusNanoseconds(nanoseconds), fraction is not null, zone);
    }

    private static bool IsLikely(int year) => year is >= 1990 and <= 2200;

    private string? Text(int tag) => exif.Select(directory => directory.GetString(tag)?.Trim('\0', ' ')).FirstOrDefault(text => !string.IsNullOrEmpty(text));

    private double? Number(int tag) => Rational(tag) is { Denominator: not 0 } rational ? Finite(rational.ToDouble())
        : exif.Select(directory => directory.TryGetDouble(tag, out var number) ? Finite(number) : null).FirstOrDefault(number => number is not null);

    private int? Whole(int tag) => exif.Select(directory => directory.TryGetInt32(tag, out var whole) ? whole : (int?)null).FirstOrDefault(whole => whole is not null);

    private Rational? Rational(int tag) => exif.Select(directory => directory.TryGetRational(tag, out var rational) ? rational : (Rational?)null).FirstOrDefault(rational => rational is not null);

    private static double? PowerOfTwo(double? exponent) => exponent is > -30 and < 30 and var e ? Math.Pow(2, e) : null;

    private static double? Finite(double number) => double.IsFinite(number) ? number : null;
}
