using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using NodaTime;

namespace Glowcast.Engine.Tests.Take;

public class CameraClockTests
{
    private static readonly Instant True = Instant.FromUtc(2026, 2, 14, 11, 45);
    private static readonly DateTimeZone NewYork = DateTimeZoneProviders.Tzdb["America/New_York"];

    [Fact]
    public void The_freshest_fixes_of_the_receiver_set_the_clock()
    {
        // The clock is 100 s ahead of UTC; every fix but each fourth is up to a minute old.
        var frames = Enumerable.Range(0, 12).Select(i => Frame(100 + (i * 10)) with { GpsTime = True + Duration.FromSeconds((i * 10) - (i % 4 == 0 ? 0 : i % 4 * 20)) });
        var clock = CameraClock.Of([.. frames], NewYork)!;
        Assert.Equal(ClockSource.Gps, clock.Source);
        Assert.Equal(Duration.FromSeconds(100), clock.AheadOfUtc);
    }

    [Fact]
    public void The_offset_in_the_frames_comes_before_the_time_zone_of_the_lookout()
    {
        var clock = CameraClock.Of([Frame(0) with { Offset = Offset.FromHours(1) }], NewYork)!;
        Assert.Equal((ClockSource.FrameOffset, Duration.FromHours(1)), (clock.Source, clock.AheadOfUtc));
        Assert.Equal((ClockSource.TimeZone, Duration.FromHours(-5)), (CameraClock.Of([Frame(0)], NewYork)!.Source, CameraClock.Of([Frame(0)], NewYork)!.AheadOfUtc));
    }

    [Fact]
    public void A_typed_error_is_taken_off()
    {
        var clock = CameraClock.Of([Frame(0)], NewYork, Duration.FromSeconds(42))!;
        Assert.Equal(True + Duration.FromHours(5) - Duration.FromSeconds(42), clock.At(Frame(0)));
    }

    [Fact]
    public void A_known_frame_sets_the_clock_and_one_without_a_time_cannot()
    {
        var clock = CameraClock.Of(Frame(30), True);
        Assert.Equal(True + Duration.FromSeconds(5), clock.At(Frame(35)));
        Assert.Null(clock.At(new ShotFrame("b")));
        Assert.Throws<BadInputException>(() => CameraClock.Of(new ShotFrame("b"), True));
    }

    [Fact]
    public void Where_nothing_tells_there_is_no_clock() => Assert.Null(CameraClock.Of([Frame(0)]));

    private static ShotFrame Frame(int seconds) => new($"{seconds}") { Taken = True.InUtc().LocalDateTime.PlusSeconds(seconds) };
}
