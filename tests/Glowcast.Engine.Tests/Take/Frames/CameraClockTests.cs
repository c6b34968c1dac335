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
    public void A_known_frame_of_one_camera_does_not_shift_the_other()
    {
        ShotFrame[] frames = [Frame(0), Frame(10), Frame(3600) with { Camera = "other", Offset = Offset.FromHours(1) }, Frame(3610) with { Camera = "other", Offset = Offset.FromHours(1) }];
        var clock = CameraClock.Of(frames[0], True + Duration.FromSeconds(7), frames, null)!;
        Assert.Equal(True + Duration.FromSeconds(17), clock.At(frames[1]));
        Assert.Equal(True + Duration.FromSeconds(10), clock.At(frames[3]));
    }

    [Fact]
    public void Of_a_camera_of_which_nothing_tells_no_instant_is_made_up()
    {
        ShotFrame[] frames = [Frame(0), Frame(0) with { Camera = "other" }];
        Assert.Null(CameraClock.Of(frames[0], True, frames, null)!.At(frames[1]));
    }

    [Fact]
    public void Each_camera_has_its_own_clock_and_that_of_most_frames_comes_first()
    {
        ShotFrame[] frames = [Frame(0) with { Camera = "one", Offset = Offset.FromHours(1) }, Frame(0) with { Camera = "two", Offset = Offset.FromHours(2) }, Frame(5) with { Camera = "two", Offset = Offset.FromHours(2) }];
        var clock = CameraClock.Of(frames)!;
        Assert.Equal(Duration.FromHours(2), clock.AheadOfUtc);
        Assert.Equal(True - Duration.FromHours(1), clock.At(frames[0]));
        Assert.Equal(True - Duration.FromHours(2), clock.At(frames[1]));
    }

    [Fact]
    public void Where_nothing_tells_there_is_no_clock() => Assert.Null(CameraClock.Of([Frame(0)]));

    private static ShotFrame Frame(int seconds) => new($"{seconds}") { Taken = True.InUtc().LocalDateTime.PlusSeconds(seconds) };
}
