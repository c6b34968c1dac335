using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Capture;

public class ClickStopTests
{
    // Wanted: fields of 10° at 40 % overlap, a step of 6°.
    private static readonly FrameSteps Wanted = FrameSteps.Of(5, Angle.FromDegrees(10), 0.4);

    [Theory]
    [InlineData("3.6 5 6.3 7.5", 6.3, 0.37)]
    [InlineData("5 7", 5, 0.5)]
    [InlineData("7.5 15", 7.5, 0.25)]
    [InlineData("6", 6, 0.4)]
    public void The_nearest_stop_gives_its_own_overlap(string stops, double turnDeg, double overlap)
    {
        var stop = ClickStop.Nearest(Stops(stops), Wanted)!;

        Assert.Equal(turnDeg, stop.Turn.Degrees, 9);
        Assert.Equal(overlap, stop.Overlap, 9);
    }

    [Fact]
    public void The_overlap_asked_for_is_kept_by_the_widest_stop_that_is_not_wider_than_the_step()
    {
        Assert.Equal(5, ClickStop.KeepingOverlap(Stops("3.6 5 6.3 7.5"), Wanted)!.Turn.Degrees, 9);
        Assert.Equal(6, ClickStop.KeepingOverlap(Stops("5 6 7"), Wanted)!.Turn.Degrees, 9);
        Assert.Null(ClickStop.KeepingOverlap(Stops("7.5 10"), Wanted));
    }

    [Fact]
    public void Stops_wider_than_a_frame_are_no_use() => Assert.Null(ClickStop.Nearest(Stops("12 15"), Wanted));

    [Fact]
    public void A_set_laid_out_again_with_the_stops_overlap_turns_by_the_stop()
    {
        var set = SamplePlan.Layout;
        var stop = ClickStop.KeepingOverlap(Stops("5 6 7.5"), set.Across)!;
        var again = new SetLayout(set.Camera, set.Lens, set.Settings with { Overlap = stop.Overlap }, set.Picture);

        Assert.Equal(6, again.Across.Step.Degrees, 9);
    }

    private static Angle[] Stops(string degrees) =>
        [.. degrees.Split(' ').Select(stop => Angle.FromDegrees(double.Parse(stop, System.Globalization.CultureInfo.InvariantCulture)))];
}
