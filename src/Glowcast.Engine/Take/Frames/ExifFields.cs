using System.Globalization;
using Glowcast.Engine.Measures;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Take;

/// <summary>The EXIF fields of one file. What is missing, or makes no sense, is null.</summary>
/// <remarks>EXIF 2.32 (CIPA DC-008-2019), sections 4.6.4 (TIFF), 4.6.5 (Exif) and 4.6.6 (GPS).</remarks>
internal sealed class ExifFields(PictureParts parts)
{
    private const int MoreThan16Bits = 65535;
    private const uint InfinitelyFar = 0xFFFFFFFF;

    private static readonly LocalDateTimePattern ExifTime = LocalDateTimePattern.CreateWithInvariantCulture("uuuu':'MM':'dd HH':'mm':'ss");
    private static readonly LocalDatePattern ExifDate = LocalDatePattern.CreateWithInvariantCulture("uuuu':'MM':'dd");
    private static readonly OffsetPattern ExifOffset = OffsetPattern.CreateWithInvariantCulture("+HH:mm");

    private readonly List<TagDirectory> exif = [.. parts.Directories.Where(directory => directory.Kind is DirectoryKind.Picture or DirectoryKind.Exif)];

    private readonly TagDirectory? gps = parts.Directories.FirstOrDefault(directory => directory.Kind == DirectoryKind.Gps);

    public PictureParts Parts => parts;

    public ShotFrame FrameOf(string name)
    {
        var (taken, hasSubSeconds, offset) = Time(ExifTag.DateTimeOriginal, ExifTag.SubSecTimeOriginal, ExifTag.OffsetTimeOriginal)
            ?? Time(ExifTag.DateTimeDigitized, ExifTag.SubSecTimeDigitized, ExifTag.OffsetTimeDigitized) ?? (null, false, null);
        return new ShotFrame(name)
        {
            Camera = string.Join(' ', new[] { Text(ExifTag.Make), Text(ExifTag.Model), Text(ExifTag.BodySerialNumber) }.OfType<string>()),
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
                Aperture = Number(ExifTag.FNumber) ?? PowerOfTwo(Number(ExifTag.Aperture) / 2),
                Iso = Iso,
                FocalLength = Number(ExifTag.FocalLength) is > 0 and < 100_000 and var mm ? Length.FromMillimetres(mm) : null,
                FocusDistance = FocusDistance,
                WhiteBalance = Whole(ExifTag.WhiteBalance) switch { 0 => "automatic", 1 => "manual", _ => null },
                Lie = Whole(ExifTag.Orientation) is >= 1 and <= 8 and var lie ? (int)lie : null,
                PixelsWide = wide,
                PixelsHigh = high,
            };
        }
    }

    // Shutter speed: −log₂ of the exposure.
    private double? Exposure => Number(ExifTag.ExposureTime) ?? PowerOfTwo(-Number(ExifTag.ShutterSpeed));

    // The sensitivity ends at 65535; beyond, the recommended exposure index says it.
    private double? Iso => Number(ExifTag.PhotographicSensitivity) is > 0 and < MoreThan16Bits and var iso ? iso
        : Number(ExifTag.RecommendedExposureIndex) is > 0 and var index ? index
        : null;

    // A numerator of 0 says unknown, one of FFFFFFFF infinity.
    private Length? FocusDistance => First(ExifTag.SubjectDistance, value => value.RationalAt(0)) is { Numerator: > 0 and < InfinitelyFar, Denominator: > 0 } distance
        ? Length.FromMetres((double)distance.Numerator / distance.Denominator)
        : null;

    // What EXIF says, else the largest picture in the file.
    private (int? Wide, int? High) Size => exif.Select(directory => SizeIn(directory, ExifTag.PixelXDimension, ExifTag.PixelYDimension))
        .Concat(exif.Select(directory => SizeIn(directory, ExifTag.ImageWidth, ExifTag.ImageLength)))
        .Concat(parts.Sizes)
        .Where(size => size is { Wide: > 0, High: > 0 })
        .Select(size => ((int?)size.Wide, (int?)size.High))
        .DefaultIfEmpty((null, null)).MaxBy(size => (long)(size.Item1 ?? 0) * (size.Item2 ?? 0));

    // In UTC.
    private Instant? GpsTime
    {
        get
        {
            if (gps?[GpsTag.DateStamp]?.Text is not { } text || !ExifDate.Parse(text).TryGetValue(default, out var date) || !IsLikely(date.Year)) return null;
            return InSixties(GpsTag.TimeStamp) * NodaConstants.SecondsPerHour is >= 0 and < 86_401 and var seconds
                ? date.AtMidnight().InUtc().ToInstant() + Duration.FromSeconds(seconds)
                : null;
        }
    }

    // A receiver without a fix writes zeros.
    private GeoPoint? Place =>
        (Signed(GpsTag.Latitude, GpsTag.LatitudeRef, "N", "S"), Signed(GpsTag.Longitude, GpsTag.LongitudeRef, "E", "W")) is ( >= -90 and <= 90 and var latitude, >= -180 and <= 180 and var longitude)
        && (latitude != 0 || longitude != 0)
            ? GeoPoint.FromDegrees(latitude, longitude)
            : null;

    private double? Signed(GpsTag angle, GpsTag reference, string positive, string negative) => gps?[reference]?.Text is { } text && (text == positive || text == negative)
        ? (text == positive ? 1 : -1) * InSixties(angle)
        : null;

    // Degrees or hours, minutes and seconds.
    private double? InSixties(GpsTag tag) => gps?[tag] is { Count: 3 } parts && (parts.NumberAt(0), parts.NumberAt(1), parts.NumberAt(2)) is ({ } whole, { } minutes, { } seconds)
        ? whole + (minutes / 60) + (seconds / 3600)
        : null;

    private static (int Wide, int High) SizeIn(TagDirectory directory, ExifTag wide, ExifTag high) => (SideIn(directory, wide), SideIn(directory, high));

    private static int SideIn(TagDirectory directory, ExifTag tag) => directory[tag]?.WholeAt(0) is > 0 and <= int.MaxValue and var side ? (int)side : 0;

    // A camera whose clock was never set writes blanks or zeros, a broken one any year: no time.
    private (LocalDateTime? Taken, bool HasSubSeconds, Offset? Offset)? Time(ExifTag time, ExifTag subSeconds, ExifTag offset)
    {
        if (Text(time) is not { } text || !ExifTime.Parse(text).TryGetValue(default, out var taken) || !IsLikely(taken.Year)) return null;
        var fraction = Text(subSeconds) is { } digits && digits.All(char.IsAsciiDigit) ? $"0.{digits}" : null;
        var nanoseconds = fraction is null ? 0 : (long)(double.Parse(fraction, CultureInfo.InvariantCulture) * NodaConstants.NanosecondsPerSecond);
        var zone = Text(offset) is { } sign && ExifOffset.Parse(sign).TryGetValue(default, out var known) ? known : (Offset?)null;
        return (taken.PlusNanoseconds(nanoseconds), fraction is not null, zone);
    }

    private static bool IsLikely(int year) => year is >= 1990 and <= 2200;

    private string? Text(ExifTag tag) => exif.Select(directory => directory[tag]?.Text).FirstOrDefault(text => text is not null);

    private double? Number(ExifTag tag) => First(tag, value => value.NumberAt(0));

    private long? Whole(ExifTag tag) => First(tag, value => value.WholeAt(0));

    private T? First<T>(ExifTag tag, Func<TagValue, T?> read)
        where T : struct => exif.Select(directory => directory[tag] is { } value ? read(value) : null).FirstOrDefault(value => value is not null);

    private static double? PowerOfTwo(double? exponent) => exponent is > -30 and < 30 and var e ? Math.Pow(2, e) : null;
}
