using Glowcast.Engine.Take;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Takes written as files, with EXIF by exiftool, read back and sorted. The long run has 12: <c>GLOWCAST_WRITTEN_TAKES</c>.</summary>
public sealed class WrittenTakeTests : IDisposable
{
    private const int FirstSeed = 10_000;

    private static readonly int Takes = int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_WRITTEN_TAKES"), out var many) ? many : 3;

    private readonly string folder = Directory.CreateTempSubdirectory("glowcast-take-").FullName;

    [TheoryNeeds<Exiftool>]
    [InlineData(true, 0.98)]
    [InlineData(false, 0.95)]
    public void Sets_of_written_takes_are_found_exactly_and_no_broken_set_is_called_whole(bool markers, double atLeast)
    {
        var score = new TakeScore();
        for (var seed = FirstSeed; seed < FirstSeed + Takes; seed++)
        {
            var take = RandomTake.Of(seed, markers);
            score.Count(take, TakeSorter.Sort(WriteAndRead(take), take.Clock, cancel: TestContext.Current.CancellationToken), seed);
        }
        TestContext.Current.TestOutputHelper!.WriteLine($"written, markers {markers}: {score}");
        Assert.Empty(score.WronglyWhole);
        Assert.True(score.ExactTakes >= Math.Floor(atLeast * Takes), $"{score}");
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private List<ShotFrame> WriteAndRead(RandomTake take)
    {
        var here = Directory.CreateDirectory(Path.Combine(folder, Guid.NewGuid().ToString("N"))).FullName;
        var files = take.Frames.Select(frame => (Frame: frame, Path: Path.Combine(here, Path.ChangeExtension(frame.Name, ".jpg")))).ToList();
        foreach (var (frame, path) in files) File.WriteAllBytes(path, MadePictures.Jpeg(frame.Glance!));
        Exiftool.Write(files.Select(file => (file.Path, MadePictures.Tags(file.Frame))), folder);
        var read = files.ConvertAll(file =>
        {
            using var stream = File.OpenRead(file.Path);
            return FrameReader.Read(stream, file.Frame.Name);
        });
        Directory.Delete(here, recursive: true);
        return read;
    }
}
