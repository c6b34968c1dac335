using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Which sets are repeats of one another.</summary>
public class BetterRepeatTests
{
    private static readonly SetClock Plan = new(10, 2, new ShootingOrder(), new StepTimes(), repeats: 1);

    [Theory]
    [InlineData(0, 1)]
    [InlineData(50, 1)]
    [InlineData(70, 0)]
    public void Sets_of_one_hour_are_repeats_and_later_ones_another_picture(int minutesLater, int choices)
    {
        var frames = MadeTake.Shot(Plan).Select((frame, i) => i < 20 ? frame : frame with { Taken = frame.Taken!.Value.PlusMinutes(minutesLater) });
        Assert.Equal(choices, MadeTake.Sorted([.. frames], Plan).Choices.Count);
    }

    [Fact]
    public void Another_focal_length_is_another_picture()
    {
        var frames = MadeTake.Shot(Plan).Select((frame, i) => i < 20 ? frame : frame with { Settings = frame.Settings with { FocalLength = Length.FromMillimetres(200) } });
        Assert.Empty(MadeTake.Sorted([.. frames], Plan).Choices);
    }
}
