using Glowcast.Engine.Capture;
using Glowcast.Engine.Take;
using NodaTime;

namespace Glowcast.Engine.Tests.Take;

public class OwnTimesTests
{
    // Steps by turns 0.2 s longer and shorter than usual: their median deviation is 0.2 s, which is a standard deviation of
    // 0.2/Φ⁻¹(3/4) = 0.2965 s for times that are spread normally (Rousseeuw & Croux 1993, J. Am. Stat. Assoc. 88, 1273).
    [Fact]
    public void The_spread_of_steps_is_told_as_one_standard_deviation()
    {
        const double offS = 0.2;
        var times = new StepTimes { Marker = Duration.Zero };
        var clock = new SetClock(11, 1, new ShootingOrder(), times, repeats: 0);
        var frames = MadeTake.Shot(clock).Select((frame, i) => i % 2 == 0 ? frame : frame with { Taken = frame.Taken!.Value.PlusMilliseconds((long)(1000 * offS)) });
        var own = OwnTimes.Of(MadeTake.Sorted([.. frames], clock), times, new ShootingOrder(), Bracket.None)!;
        Assert.Equal(10, own.Steps);
        Assert.Equal(offS / 0.674490, own.StepSpread.TotalSeconds, 1e-4);
    }
}
