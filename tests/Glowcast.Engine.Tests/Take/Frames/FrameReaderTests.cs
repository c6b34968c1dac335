using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using NodaTime;

namespace Glowcast.Engine.Tests.Take;

/// <summary>What is read is what exiftool wrote, under the tags of EXIF 2.32 (CIPA DC-008-2019).</summary>
public sealed class FrameReaderTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("glowcast-frames-").FullName;

    [TheoryNeeds<Exiftool>]
    [InlineData("a.jpg")]
    [InlineData("a.tif")]
    [InlineData("a.dng")]
    public void A_frame_says_how_and_when_it_was_shot(string name)
    {
        var frame = Written(
            name,
            "EXIF:Make=Maker", "EXIF:Model=Model", "EXIF:SerialNumber=7", "EXIF:DateTimeOriginal=2026:02:14 06:45:09", "EXIF:SubSecTimeOriginal=07",
            "EXIF:OffsetTimeOriginal=-05:00", "EXIF:ExposureTime#=0.008", "EXIF:FNumber#=11", "EXIF:ISO#=100", "EXIF:FocalLength#=135",
            "EXIF:SubjectDistance#=1234.5", "EXIF:WhiteBalance#=1", "EXIF:Orientation#=8", "EXIF:GPSLatitude#=44.2592", "EXIF:GPSLatitudeRef=N",
            "EXIF:GPSLongitude#=71.2025", "EXIF:GPSLongitudeRef=W", "EXIF:GPSDateStamp=2026:02:14", "EXIF:GPSTimeStamp=11:45:08");

        Assert.Equal("Maker Model 7", frame.Camera);
        // SubSecTimeOriginal (0x9291) is the fraction's digits: 07 is seven hundredths.
        Assert.Equal(new LocalDateTime(2026, 2, 14, 6, 45, 9).PlusMilliseconds(70), frame.Taken);
        Assert.True(frame.HasSubSeconds);
        Assert.Equal(Offset.FromHours(-5), frame.Offset);
        Assert.Equal(Instant.FromUtc(2026, 2, 14, 11, 45, 8), frame.GpsTime);
        Assert.Equal(44.2592, frame.Place!.Value.LatitudeDeg, 1e-5);
        Assert.Equal(-71.2025, frame.Place!.Value.LongitudeDeg, 1e-5);
        var settings = frame.Settings;
        Assert.Equal(0.008, settings.Exposure!.Value.TotalSeconds, 1e-6);
        Assert.Equal(11, settings.Aperture);
        Assert.Equal(100, settings.Iso);
        Assert.Equal(135, settings.FocalLength!.Value.Millimetres, 1e-9);
        Assert.Equal(1234.5, settings.FocusDistance!.Value.Metres, 1e-6);
        Assert.Equal("manual", settings.WhiteBalance);
        Assert.Equal(8, settings.Lie);
        Assert.Equal((MadePictures.Wide, MadePictures.High), (settings.PixelsWide, settings.PixelsHigh));
    }

    [TheoryNeeds<Exiftool>]
    [InlineData("EXIF:ShutterSpeedValue#=0.125", 0.125, null)] // APEX 3 (0x9201)
    [InlineData("EXIF:ApertureValue#=8", null, 8.0)] // APEX 6 (0x9202)
    public void Apex_values_stand_in_for_exposure_time_and_f_number(string tag, double? exposureS, double? aperture)
    {
        var settings = Written("a.jpg", tag).Settings;
        if (exposureS is { } seconds) Assert.Equal(seconds, settings.Exposure!.Value.TotalSeconds, 1e-4);
        else Assert.Null(settings.Exposure);
        if (aperture is { } number) Assert.Equal(number, settings.Aperture!.Value, 1e-3);
        else Assert.Null(settings.Aperture);
    }

    [TheoryNeeds<Exiftool>]
    [InlineData("EXIF:DateTimeOriginal#=0000:00:00 00:00:00")]
    [InlineData("EXIF:DateTimeOriginal#=9999:12:31 23:59:59")]
    [InlineData("EXIF:DateTimeOriginal#=    :  :     :  :  ")]
    [InlineData("EXIF:DateTimeOriginal#=2026:13:45 25:61:61")]
    [InlineData("EXIF:ModifyDate=2026:02:14 06:45:09")]
    public void A_clock_that_was_never_set_and_a_time_of_change_are_no_time_of_exposure(string tag) => Assert.Null(Written("a.jpg", tag).Taken);

    [TheoryNeeds<Exiftool>]
    [InlineData("9999:12:31")]
    [InlineData("0001:01:01")]
    public void A_receiver_out_of_its_mind_tells_no_time(string date) =>
        Assert.Null(Written("a.jpg", $"EXIF:GPSDateStamp={date}", "EXIF:GPSTimeStamp=11:45:08").GpsTime);

    [TheoryNeeds<Exiftool>]
    [InlineData("SubjectDistance#=0")]
    [InlineData("SubjectDistance=inf")]
    public void An_unknown_or_endless_focus_distance_is_none(string tag) => Assert.Null(Written("a.jpg", $"EXIF:{tag}").Settings.FocusDistance);

    [FactNeeds<Exiftool>]
    public void The_thumbnail_of_another_shape_is_looked_at_without_its_bars_and_upright()
    {
        var glance = new MadePanorama(new Random(1)).Glance(0, 0, 0);
        var thumbnail = Path.Combine(folder, "thumbnail.jpg");
        File.WriteAllBytes(thumbnail, MadePictures.Jpeg(glance));
        var frame = Written("a.jpg", "EXIF:Orientation#=8", $"EXIF:ThumbnailImage<={thumbnail}");
        // 8 bits and JPEG cost a few hundredths of a stop.
        Assert.Equal(0, frame.Glance!.DistanceTo(glance), 0.15);
    }

    [Fact]
    public void Of_a_picture_that_breaks_off_nothing_is_guessed()
    {
        var jpeg = MadePictures.Jpeg(new MadePanorama(new Random(1)).Glance(0, 0, 0));
        using var whole = new MemoryStream(jpeg);
        Assert.NotNull(FrameReader.Read(whole, "a.jpg").Glance);
        using var half = new MemoryStream(jpeg[..(jpeg.Length / 2)]);
        Assert.Null(FrameReader.Read(half, "a.jpg").Glance);
    }

    [Theory]
    [InlineData("")]
    [InlineData("FFD8FF")]
    [InlineData("49492A0008000000FFFF")]
    [InlineData("4D4D002A0000000800010112000300000001FFFFFFFFFFFFFFFF")]
    [InlineData("FFD8FFE100104578696600004949002A0000FFFFFFFF")]
    [InlineData("000000186674797063727820")]
    public void A_broken_file_is_refused_by_name_or_read_as_far_as_it_goes(string bytes)
    {
        using var stream = new MemoryStream(Convert.FromHexString(bytes));
        try
        {
            Assert.Equal("broken.cr3", FrameReader.Read(stream, "broken.cr3").Name);
        }
        catch (BadInputException refused)
        {
            Assert.Equal("broken.cr3", Assert.Single(refused.Faults).Field);
        }
    }

    [FactNeeds<Exiftool>]
    public void Damage_anywhere_in_a_file_is_a_fault_of_the_file_and_nothing_worse()
    {
        var many = int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_DAMAGED_FILES"), out var asked) ? asked : 300;
        Written("a.jpg", [.. MadePictures.Tags(RandomTake.Of(1, markers: true).Frames[0])]);
        var whole = File.ReadAllBytes(Path.Combine(folder, "a.jpg"));
        var random = new Random(4);
        for (var i = 0; i < many; i++)
        {
            var damaged = whole[..(random.Next(3) == 0 ? random.Next(whole.Length) : whole.Length)];
            for (var hit = random.Next(1, 12); hit > 0 && damaged.Length > 0; hit--) damaged[random.Next(Math.Min(damaged.Length, 800))] = (byte)random.Next(256);
            using var stream = new MemoryStream(damaged);
            if (Record.Exception(() => FrameReader.Read(stream, "damaged")) is { } fault) Assert.IsType<BadInputException>(fault);
        }
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private ShotFrame Written(string name, params string[] tags)
    {
        var path = Path.Combine(folder, name);
        var glance = new MadePanorama(new Random(2)).Glance(0, 0, 0);
        if (name.EndsWith(".jpg", StringComparison.Ordinal)) File.WriteAllBytes(path, MadePictures.Jpeg(glance));
        else MadePictures.WriteTiff(path, glance);
        Exiftool.Write([(path, tags)], folder);
        using var stream = File.OpenRead(path);
        return FrameReader.Read(stream, name);
    }
}
