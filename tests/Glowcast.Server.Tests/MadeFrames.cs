using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using Glowcast.Engine.Tests.Take;
using NodaTime;

namespace Glowcast.Server.Tests;

/// <summary>A folder of picture files with EXIF by exiftool: two sets of nine, each after a marker frame. It goes when the tests are over.</summary>
public sealed class MadeFrames : IDisposable, INeed
{
    public static string Missing => Exiftool.Missing;

    private static readonly LocalDateTime Start = new(2026, 2, 14, 6, 45);

    public MadeFrames()
    {
        if (!IsPresent) return;
        var panorama = new MadePanorama(new Random(1));
        foreach (var (i, frame) in Frames(panorama).Index()) File.WriteAllBytes(Frame(i + 1), MadePictures.Jpeg(frame.Glance!));
        Exiftool.Write(Frames(panorama).Select((frame, i) => (Frame(i + 1), MadePictures.Tags(frame))), Folder);
    }

    public static bool IsPresent => Exiftool.IsPresent;

    public string Folder { get; } = Directory.CreateTempSubdirectory("glowcast-frames-").FullName;

    public string[] Files => [.. Directory.GetFiles(Folder).Order(StringComparer.Ordinal)];

    public string Frame(int number) => Path.Combine(Folder, $"IMG_{number:0000}.jpg");

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static IEnumerable<ShotFrame> Frames(MadePanorama panorama)
    {
        var dark = new Glance([.. Enumerable.Repeat(-11f, Glance.Columns * Glance.Rows)]);
        for (var set = 0; set < 2; set++)
            for (var frame = -1; frame < 9; frame++)
                yield return new ShotFrame("")
                {
                    Camera = "Maker Model",
                    Taken = Start.PlusMilliseconds((set * 60_000) + (frame < 0 ? 0 : 2500 + (frame * 4020))),
                    HasSubSeconds = true,
                    Settings = new ShotSettings { Exposure = Duration.FromSeconds(0.02), Aperture = 11, Iso = 100, FocalLength = Length.FromMillimetres(135), Lie = 8 },
                    Glance = frame < 0 ? dark : panorama.Glance(frame * 0.6, 0, 0),
                };
    }
}
