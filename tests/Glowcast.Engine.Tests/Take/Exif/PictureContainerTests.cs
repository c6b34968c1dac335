using Glowcast.Engine.Take;
using NodaTime;

namespace Glowcast.Engine.Tests.Take;

/// <summary>The same shot in every kind of file that holds EXIF.</summary>
public class PictureContainerTests
{
    public static TheoryData<string> Kinds => ["jpeg", "big-endian jpeg", "tiff", "png", "png after the picture", "webp", "webp as jpeg", "raf", "rw2", "orf", "cr3", "heif"];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void What_the_camera_wrote_is_found(string kind)
    {
        var frame = Read(Made(kind));
        Assert.Equal("Maker Model", frame.Camera);
        Assert.Equal(new LocalDateTime(2026, 2, 14, 6, 45, 9), frame.Taken);
        Assert.Equal(1 / 125.0, frame.Settings.Exposure!.Value.TotalSeconds, 1e-9);
        Assert.Equal((11, 100, 135), (frame.Settings.Aperture, frame.Settings.Iso, frame.Settings.FocalLength!.Value.Millimetres));
        Assert.Equal(44.2592, frame.Place!.Value.LatitudeDeg, 1e-9);
        Assert.Equal(-71.2025, frame.Place!.Value.LongitudeDeg, 1e-9);
    }

    private static byte[] Made(string kind)
    {
        var tiff = MadeTags.OfShot();
        return kind switch
        {
            "jpeg" => MadeContainers.Jpeg(tiff),
            "big-endian jpeg" => MadeContainers.Jpeg(MadeTags.OfShot(isLittle: false)),
            "tiff" => tiff,
            "png" => MadeContainers.Png(("IHDR", new byte[13]), ("eXIf", tiff), ("IEND", [])),
            "png after the picture" => MadeContainers.Png(("IHDR", new byte[13]), ("IDAT", new byte[100_000]), ("eXIf", tiff), ("IEND", [])),
            "webp" => MadeContainers.WebP(tiff),
            "webp as jpeg" => MadeContainers.WebP([.. "Exif\0\0"u8, .. tiff]),
            "raf" => MadeContainers.Raf(MadeContainers.Jpeg(tiff)),
            // Its own directory says nothing of the shot; the JPEG within does.
            "rw2" => [.. "IIU\0"u8, .. MadeTags.Of((0x2E, MadeContainers.Jpeg(tiff))).AsSpan(4)],
            "orf" => MadeTags.OfShot(version: 0x4F52),
            "cr3" => MadeContainers.Cr3(MadeTags.Of((0x010F, "Maker"), (0x0110, "Model")), MadeTags.Of([.. MadeTags.Exposure]), MadeTags.Of([.. MadeTags.Place])),
            _ => MadeContainers.Heif(tiff),
        };
    }

    private static ShotFrame Read(byte[] bytes)
    {
        using var stream = new MemoryStream(bytes, writable: false);
        return FrameReader.Read(stream, "made");
    }
}
