using System.Collections.Concurrent;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;

namespace Glowcast.Cli.Takes;

/// <summary>What was read of a take.</summary>
/// <param name="Skipped">Files that could not be read, and why.</param>
internal sealed record TakeReading(IReadOnlyList<ShotFrame> Frames, IReadOnlyList<Fault> Skipped)
{
    /// <param name="progress">Share done.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static TakeReading Of(IReadOnlyList<TakeFile> files, IProgress<double> progress, CancellationToken cancel)
    {
        var skipped = new ConcurrentBag<Fault>();
        var done = 0;
        var frames = files.AsParallel().AsOrdered().WithCancellation(cancel).Select(file =>
        {
            var frame = Read(file, skipped);
            progress.Report(Interlocked.Increment(ref done) / (double)files.Count);
            return frame;
        }).OfType<ShotFrame>().ToList();
        return new TakeReading(frames, [.. skipped.OrderBy(fault => fault.Field, StringComparer.Ordinal)]);
    }

    private static ShotFrame? Read(TakeFile file, ConcurrentBag<Fault> skipped)
    {
        try
        {
            // Pipes and devices have no length either, and would be read for ever.
            if (new FileInfo(file.Files[0]) is { Exists: true, Length: 0 }) throw new BadInputException(file.Name, "Is empty, or no file at all.");
            using var stream = new FileStream(file.Files[0], FileMode.Open, FileAccess.Read, FileShare.Read);
            return FrameReader.Read(stream, file.Name);
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) skipped.Add(fault);
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            skipped.Add(new Fault(file.Name, $"Cannot be read: {FileRefusal.Because(unreadable)}."));
        }
        return null;
    }
}
