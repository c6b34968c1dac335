using Glowcast.Engine.Capture;
using Glowcast.Engine.Take;
using NodaTime;

namespace Glowcast.Engine.Tests.Take;

public class LightLearnedTests
{
    private static readonly Instant Shot = Instant.FromUtc(2026, 2, 14, 11, 45);

    [Theory]
    [InlineData(2.5, LightChange.FirstLight)]
    [InlineData(-2.5, LightChange.LastLight)]
    public void The_light_is_seen_to_come_or_go_where_the_brightness_steps(double stops, LightChange change)
    {
        const double afterS = 27;
        var seen = Assert.Single(LightSeen.In(Sorted(time => time < afterS ? 0 : stops), AtUtc));
        Assert.Equal(change, seen.Change);
        Assert.Equal(afterS, (seen.At - Shot).TotalSeconds, 4.02);
        Assert.Equal(stops, seen.Stops!.Value, 0.5);
        Assert.InRange(seen.Uncertainty.TotalSeconds, 1, 4.02);
    }

    [Fact]
    public void A_steady_drift_is_no_first_light() => Assert.Empty(LightSeen.In(Sorted(time => 0.01 * time), AtUtc));

    [Fact]
    public void Frames_of_one_instant_have_a_drift_that_is_a_number()
    {
        var panorama = new MadePanorama(new Random(5));
        List<SetFrame> row = [.. Enumerable.Range(0, 5).Select(column => new SetFrame(new ShotFrame($"{column}.dng") { Glance = panorama.Glance(column * 0.6, 0, column * 0.1) }, 0, column, 0, false, Duration.Zero))];
        Assert.True(double.IsFinite(StripDrift.Of([row], 0.4)!.FirstToLastStops));
    }

    private static CameraClock AtUtc { get; } = new(ClockSource.Typed, Duration.Zero, null);

    /// <summary>One row of twelve frames, shot as planned, in a light that changes with time.</summary>
    private static SortedTake Sorted(Func<double, double> stopsAt)
    {
        var clock = new SetClock(12, 1, new ShootingOrder(), new StepTimes { Marker = Duration.Zero });
        var panorama = new MadePanorama(new Random(5));
        return TakeSorter.Sort(
            [.. clock.Exposures.Select(exposure => new ShotFrame($"{exposure.Frame}.dng")
            {
                Taken = new LocalDateTime(2026, 2, 14, 11, 45).PlusNanoseconds((long)exposure.Start.TotalNanoseconds),
                HasSubSeconds = true,
                Glance = panorama.Glance(exposure.Column * 0.6, 0, stopsAt(exposure.Start.TotalSeconds)),
            })],
            clock, cancel: TestContext.Current.CancellationToken);
    }
}
