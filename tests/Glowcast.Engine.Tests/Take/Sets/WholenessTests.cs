using Glowcast.Engine.Capture;
using Glowcast.Engine.Take;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Whether a set is whole, by what stands beside it.</summary>
public class WholenessTests
{
    private static readonly SetClock Plan = new(10, 2, new ShootingOrder(), new StepTimes(), repeats: 0);

    [Fact]
    public void A_set_without_pictures_is_complete_by_count_and_not_called_whole()
    {
        var set = Judged(null);
        Assert.Equal((Wholeness.Uncertain, true), (set.Wholeness, set.IsCompleteByCount));
    }

    // A frame more, shot like those of the set: within two steps it may be one of its own; long after, it is a picture of something else.
    [Theory]
    [InlineData(1.5, false)]
    [InlineData(2.4, false)]
    [InlineData(3.2, true)]
    [InlineData(6, true)]
    [InlineData(20, true)]
    public void A_frame_more_is_a_doubt_only_when_it_is_near_in_time(double stepsLater, bool isComplete)
    {
        var set = Judged(stepsLater);
        Assert.Equal((20, isComplete), (set.Frames.Count, set.IsCompleteByCount));
    }

    private static FoundSet Judged(double? stepsLater)
    {
        var frames = MadeTake.Shot(Plan);
        if (stepsLater is { } steps)
            frames.Add(frames[^1] with { Name = "IMG_00021.dng", Taken = frames[^1].Taken!.Value.PlusNanoseconds((long)(steps * Plan.Step.TotalNanoseconds)) });
        return Assert.Single(MadeTake.Sorted(frames, Plan).Sets);
    }
}
