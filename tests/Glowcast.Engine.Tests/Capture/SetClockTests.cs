using Glowcast.Engine.Capture;
using NodaTime;
using static Glowcast.Engine.Tests.Capture.CaptureReference;

namespace Glowcast.Engine.Tests.Capture;

public class SetClockTests
{
    private const string Table = "capture_timing";

    private static readonly StepTimes Plain = new()
    {
        Rotate = Duration.FromSeconds(1),
        Settle = Duration.FromSeconds(2),
        Exposure = Duration.FromSeconds(0.5),
        Write = Duration.FromSeconds(0.25),
        RowChange = Duration.FromSeconds(6),
        Return = Duration.FromSeconds(4),
        Marker = Duration.FromSeconds(3),
        RepeatGap = Duration.FromSeconds(5),
    };

    public static TheoryData<string> Cases => Ids(Table);

    [Theory, MemberData(nameof(Cases))]
    public void The_clock_is_that_of_the_reference(string id)
    {
        var row = Row(Table, id);
        var clock = Clock(row);

        Assert.Equal(row.Number("frames_per_set"), clock.FramesPerSet);
        Exactly(row, "row_step_s", clock.Step);
        Exactly(row, "first_to_last_s", clock.FirstToLast);
        Exactly(row, "set_s", clock.SetLength);
        Exactly(row, "total_s", clock.Total);
        Exactly(row, "max_side_gap_s", clock.MaxSideGap);
        Exactly(row, "max_vertical_gap_s", clock.MaxVerticalGap);
    }

    [Theory, MemberData(nameof(Cases))]
    public void The_exposures_run_through_the_times_the_clock_states(string id)
    {
        var clock = Clock(Row(Table, id));
        var last = clock.Exposures[clock.FramesPerSet - 1];

        Assert.Equal(clock.FramesPerSet * (clock.Repeats + 1), clock.Exposures.Count);
        Assert.Equal(clock.FirstOpening, clock.Exposures[0].Start);
        Assert.Equal(clock.FirstToLast, last.Start - clock.Exposures[0].Start);
        Assert.All(clock.Exposures.Zip(clock.Exposures.Skip(1)), pair => Assert.True(pair.Second.Start > pair.First.End));
        Assert.Equal(clock.Exposures.Count, clock.Exposures.DistinctBy(exposure => (exposure.Set, exposure.Row, exposure.Column)).Count());
    }

    // Two columns, two rows; a step is 1 + 2 + 0.5 + 0.25 = 3.75 s, a row step 6 + 2 + 0.5 + 0.25 = 8.75 s and 4 s more to turn back.
    [Theory]
    [InlineData(SweepDirection.LeftToRight, RowOrder.OneWay, 0, "00 01 10 11", 19.5)]
    [InlineData(SweepDirection.RightToLeft, RowOrder.OneWay, 0, "01 00 11 10", 19.5)]
    [InlineData(SweepDirection.LeftToRight, RowOrder.BackAndForth, 0, "00 01 11 10", 15.5)]
    [InlineData(SweepDirection.RightToLeft, RowOrder.BackAndForth, 1, "11 10 00 01", 15.5)]
    public void Frames_are_shot_in_the_order_asked_for(SweepDirection direction, RowOrder rows, int firstRow, string order, double thirdStartS)
    {
        var clock = new SetClock(2, 2, new ShootingOrder(direction, rows, firstRow), Plain);

        Assert.Equal(order, string.Join(' ', clock.Exposures.Select(exposure => $"{exposure.Row}{exposure.Column}")));
        Assert.Equal([3, 6.75, thirdStartS, thirdStartS + 3.75], clock.Exposures.Select(exposure => exposure.Start.TotalSeconds));
        Assert.All(clock.Exposures, exposure => Assert.Equal(0.5, (exposure.End - exposure.Start).TotalSeconds));
        Assert.Equal(3.25, clock.Exposures[0].Middle.TotalSeconds);
    }

    [Fact]
    public void A_middle_row_may_be_first_and_the_gap_to_the_last_one_is_then_the_longest()
    {
        var clock = new SetClock(2, 3, new ShootingOrder(firstRow: 1), Plain);

        Assert.Equal([1, 0, 2], clock.Exposures.Select(exposure => exposure.Row).Distinct());
        // Row 2 follows after two sweeps and two row steps: 2 × (3.75 + 12.75).
        Assert.Equal(33, clock.MaxVerticalGap.TotalSeconds);
    }

    [Fact]
    public void A_repeat_begins_with_its_own_marker_after_the_gap()
    {
        var clock = new SetClock(2, 1, new ShootingOrder(), Plain, repeats: 2);

        // A set: marker 3, one step 3.75, and 0.75 for the last exposure and its writing.
        Assert.Equal(7.5, clock.SetLength.TotalSeconds);
        Assert.Equal([0, 12.5, 25], Enumerable.Range(0, 3).Select(set => clock.SetStart(set).TotalSeconds));
        Assert.Equal([3, 6.75, 15.5, 19.25, 28, 31.75], clock.Exposures.Select(exposure => exposure.Start.TotalSeconds));
        Assert.Equal([0, 0, 1, 1, 2, 2], clock.Exposures.Select(exposure => exposure.Set));
        Assert.Equal(32.5, clock.Total.TotalSeconds);
    }

    [Fact]
    public void A_bracket_and_a_release_delay_lengthen_every_frame()
    {
        var clock = new SetClock(2, 1, new ShootingOrder(), Plain with { ReleaseDelay = Duration.FromSeconds(2) }, new Bracket(3, 1));

        // Work on a frame: 0.25 + 0.5 + 1 s open and three times 0.25 s to write, 2.5 s; a step 1 + 2 + 2 + 2.5.
        Assert.Equal(7.5, clock.Step.TotalSeconds);
        Assert.Equal([5, 5.5, 6.25, 12.5, 13, 13.75], clock.Exposures.Select(exposure => exposure.Start.TotalSeconds));
        Assert.Equal([5.25, 6, 7.25, 12.75, 13.5, 14.75], clock.Exposures.Select(exposure => exposure.End.TotalSeconds));
        Assert.Equal([0, 1, 2, 0, 1, 2], clock.Exposures.Select(exposure => exposure.Shot));
        Assert.Equal([0, 0, 0, 1, 1, 1], clock.Exposures.Select(exposure => exposure.Frame));
        Assert.Equal(7.5, clock.FirstToLast.TotalSeconds);
        Assert.Equal(15, clock.SetLength.TotalSeconds);
    }

    [Fact]
    public void A_single_frame_has_no_gaps()
    {
        var clock = new SetClock(1, 1, new ShootingOrder(), Plain);

        Assert.Equal((Duration.Zero, Duration.Zero, Duration.Zero), (clock.FirstToLast, clock.MaxSideGap, clock.MaxVerticalGap));
    }

    private static SetClock Clock(ReferenceRow row) => new(
        (int)(row.Number("columns") + (2 * row.Number("spare_each_end"))), (int)row.Number("rows"),
        new ShootingOrder(rows: row["order"] == "serpentine" ? RowOrder.BackAndForth : RowOrder.OneWay),
        new StepTimes
        {
            Rotate = Seconds(row, "rotate_s"),
            Settle = Seconds(row, "settle_s"),
            Exposure = Seconds(row, "exposure_s"),
            Write = Seconds(row, "write_s"),
            RowChange = Seconds(row, "row_change_s"),
            Return = Seconds(row, "return_s"),
            Marker = Seconds(row, "marker_s"),
            RepeatGap = Seconds(row, "second_gap_s"),
        },
        repeats: row.Flag("second_set") ? 1 : 0);

    // The table is exact in milliseconds, and so is the clock.
    private static void Exactly(ReferenceRow row, string column, Duration actual) => Assert.Equal(Seconds(row, column), actual);

    private static Duration Seconds(ReferenceRow row, string column) => Duration.FromMilliseconds((long)Math.Round(row.Number(column) * 1000));
}
