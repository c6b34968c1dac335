using Glowcast.Engine.Capture;
using Glowcast.Engine.Take;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Whether a set is whole, by what stands beside it.</summary>
public class WholenessTests
{
    private static readonly SetClock Plan = new(10, 2, new ShootingOrder(), new StepTimes(), repeats: 0);

    [Fact]
    public void A_set_by_itself_is_whole() => Assert.Equal(Wholeness.Whole, Judged(null).Wholeness);

    // A frame more, shot like those of the set: within two steps it may be one of its own; long after, it is a picture of something else.
    [Theory]
    [InlineData(1.5, Wholeness.Uncertain)]
    [InlineData(2.4, Wholeness.Uncertain)]
    [InlineData(3.2, Wholeness.Whole)]
    [InlineData(6, Wholeness.Whole)]
    [InlineData(20, Wholeness.Whole)]
    public void A_frame_more_is_a_doubt_only_when_it_is_near_in_time(double stepsLater, Wholeness expected)
    {
        var set = Judged(stepsLater);
        Assert.Equal((20, expected), (set.Frames.Count, set.Wholeness));
    }

    private static FoundSet Judged(double? stepsLater)
    {
        var frames = MadeTake.Shot(Plan);
        if (stepsLater is { } steps)
            frames.Add(frames[^1] with { Name = "IMG_00021.dng", Taken = frames[^1].Taken!.Value.PlusNanoseconds((long)(steps * Plan.Step.TotalNanoseconds)) });
        return Assert.Single(MadeTake.Sorted(frames, Plan).Sets);
    }
}
