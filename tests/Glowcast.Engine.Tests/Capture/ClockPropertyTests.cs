using FsCheck.Xunit;
using Glowcast.Engine.Capture;
using NodaTime;

namespace Glowcast.Engine.Tests.Capture;

public class ClockPropertyTests
{
    [Property(Arbitrary = [typeof(Shoots)])]
    public void Swapping_the_direction_mirrors_the_clock(Sweep sweep, RowOrder rows)
    {
        var right = sweep.Clock(SweepDirection.LeftToRight, rows);
        var left = sweep.Clock(SweepDirection.RightToLeft, rows);

        Assert.Equal(right.Exposures, left.Exposures.Select(exposure => exposure with { Column = sweep.Columns - 1 - exposure.Column }));
        Assert.Equal((right.Total, right.MaxVerticalGap), (left.Total, left.MaxVerticalGap));
    }

    [Property(Arbitrary = [typeof(Shoots)])]
    public void One_way_rows_never_leave_a_frame_and_its_neighbour_above_farther_apart_than_sweeping_back_would(Sweep sweep)
    {
        // Turning back costs no more than the sweep it saves.
        var first = sweep with { FirstRow = 0 };
        var oneWay = first.Clock(SweepDirection.LeftToRight, RowOrder.OneWay);
        var backAndForth = first.Clock(SweepDirection.LeftToRight, RowOrder.BackAndForth);
        if (sweep.Times.Return > oneWay.SweepOfRow) return;

        Assert.True(oneWay.MaxVerticalGap <= backAndForth.MaxVerticalGap);
        Assert.True(oneWay.FirstToLast >= backAndForth.FirstToLast);
    }

    [Property(Arbitrary = [typeof(Shoots)])]
    public void Repeats_are_the_first_set_again_later(Sweep sweep, RowOrder rows)
    {
        var clock = sweep.Clock(SweepDirection.LeftToRight, rows);
        var first = clock.Exposures.Where(exposure => exposure.Set == 0).ToArray();
        var last = clock.Exposures.Where(exposure => exposure.Set == sweep.Repeats);
        var later = clock.Total - clock.SetLength;

        Assert.Equal(first.Select(exposure => (exposure.Row, exposure.Column, exposure.Start + later)), last.Select(exposure => (exposure.Row, exposure.Column, exposure.Start)));
        Assert.True(first[^1].End <= clock.SetLength && first[0].Start >= Duration.Zero);
    }
}
