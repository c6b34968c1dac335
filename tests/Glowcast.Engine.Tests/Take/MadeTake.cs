using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using NodaTime;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Takes shot exactly as planned.</summary>
internal static class MadeTake
{
    /// <summary>Without marker frames and previews.</summary>
    public static List<ShotFrame> Shot(SetClock clock) =>
        [.. clock.Exposures.Select((exposure, i) => new ShotFrame($"IMG_{i + 1:00000}.dng")
        {
            Camera = "Maker",
            Taken = new LocalDateTime(2026, 2, 14, 6, 45).PlusNanoseconds((long)exposure.Start.TotalNanoseconds),
            HasSubSeconds = true,
            Settings = new ShotSettings
            {
                Exposure = exposure.End - exposure.Start,
                Aperture = 11,
                Iso = 100,
                FocalLength = Length.FromMillimetres(135),
                WhiteBalance = "manual",
                Lie = 8,
            },
        })];

    public static SortedTake Sorted(IReadOnlyList<ShotFrame> frames, SetClock clock) =>
        TakeSorter.Sort(frames, clock, cancel: TestContext.Current.CancellationToken);
}
