using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using NodaTime;

namespace Glowcast.Engine.Tests.Take;

public class LightLearnedTests
{
    private static readonly Instant Shot = Instant.FromUtc(2026, 2, 14, 11, 45);
    private static readonly GeoPoint Lookout = GeoPoint.FromDegrees(44.2592, -71.2025);

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
    public void Bias_is_the_mean_and_its_spread_that_of_single_times()
    {
        var bias = LightBias.At(Lookout, LightChange.FirstLight, [Late(60), Late(90), Late(120), Late(500, GeoPoint.FromDegrees(44.3, -71.2)), Late(-90, change: LightChange.LastLight)])!;
        Assert.Equal(3, bias.Count);
        Assert.Equal(90, bias.Mean.TotalSeconds, 1e-9);
        Assert.Equal(30, bias.Spread!.Value.TotalSeconds, 1e-6);
        Assert.Equal(30 / Math.Sqrt(3), bias.MeanUncertainty!.Value.TotalSeconds, 1e-6);
        Assert.True(bias.IsWorthApplying);
        Assert.Equal(Shot + Duration.FromSeconds(90), bias.Applied(Shot));
    }

    [Fact]
    public void Of_all_lookouts_together_every_record_counts() =>
        Assert.Equal(2, LightBias.Of(LightChange.FirstLight, [Late(10), Late(20, GeoPoint.FromDegrees(46, 7))])!.Count);

    [Theory]
    [InlineData(60)]
    [InlineData(60, -50, 10)]
    public void What_may_be_chance_is_not_worth_applying(params int[] lateS) =>
        Assert.False(LightBias.Of(LightChange.FirstLight, lateS.Select(late => Late(late)))!.IsWorthApplying);

    [Fact]
    public void Where_nothing_was_seen_there_is_no_bias() => Assert.Null(LightBias.At(Lookout, LightChange.FirstLight, []));

    private static CameraClock AtUtc { get; } = new(ClockSource.Typed, Duration.Zero, null);

    private static LightRecord Late(int seconds, GeoPoint? lookout = null, LightChange change = LightChange.FirstLight) =>
        new(lookout ?? Lookout, new LightMiss(change, Shot, Duration.FromSeconds(seconds), Duration.FromSeconds(2)));

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
