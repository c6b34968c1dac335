using Glowcast.Engine.Capture;
using Glowcast.Engine.Take;
using NodaTime;

namespace Glowcast.Engine.Tests.Take;

public class TakeSorterTests
{
    private static readonly SetClock Plan = new(10, 2, new ShootingOrder(), new StepTimes(), repeats: 1);

    [Fact]
    public void A_take_of_nothing_has_no_sets() => Assert.Empty(Sorted([]).Sets);

    [Fact]
    public void Frames_without_a_time_are_named_and_not_sorted()
    {
        var sorted = Sorted([.. Shot(Plan).Select(frame => frame with { Taken = null })]);
        Assert.Empty(sorted.Sets);
        Assert.Equal(40, sorted.WithoutTime.Count);
    }

    [Fact]
    public void A_take_shot_as_planned_is_sorted_as_planned()
    {
        var sorted = Sorted(Shot(Plan));
        Assert.Equal(2, sorted.Sets.Count);
        Assert.All(sorted.Sets, set => Assert.Equal(Plan.Exposures.Take(20).Select(exposure => (exposure.Row, exposure.Column)), set.Frames.Select(frame => (frame.Row, frame.Column))));
        Assert.Equal(Plan.Step.TotalSeconds, sorted.Sets[0].Pace.Step!.Value.TotalSeconds, 1e-6);
        Assert.Equal(Plan.MaxVerticalGap.TotalSeconds, sorted.Sets[0].Pace.LongestVerticalGap!.Value.TotalSeconds, 1e-6);
    }

    [Fact]
    public void Two_cameras_in_one_folder_are_sorted_each_by_itself()
    {
        var other = Shot(Plan).Select(frame => frame with { Name = $"other-{frame.Name}", Camera = "Other", Taken = frame.Taken!.Value.PlusSeconds(2) });
        var sorted = Sorted([.. Shot(Plan), .. other]);
        Assert.Equal(["Maker", "Maker", "Other", "Other"], sorted.Sets.Select(set => set.Camera));
        Assert.All(sorted.Sets, set => Assert.Equal(20, set.Frames.Count));
        Assert.Contains(sorted.Cautions, caution => caution.Contains("2 cameras", StringComparison.Ordinal));
    }

    [Fact]
    public void Where_the_clock_is_set_back_the_names_say_the_order()
    {
        // Between the sets the clock is set back by 90 s, so that by time they would run into one another.
        var frames = Shot(Plan);
        var setBack = frames.Select((frame, i) => i < 20 ? frame : frame with { Taken = frame.Taken!.Value.PlusSeconds(-90) }).ToList();
        var sorted = Sorted(setBack);
        Assert.Equal([frames[0].Name, frames[20].Name], sorted.Sets.Select(set => set.First.Name));
        Assert.Contains(sorted.Cautions, caution => caution.Contains(frames[20].Name, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(9)]
    [InlineData(12)]
    [InlineData(19)]
    public void A_deleted_frame_is_missed_wherever_it_is(int place)
    {
        var frames = Shot(Plan);
        var set = Sorted([.. frames.Where((_, i) => i != place)]).Sets[0];
        Assert.Equal(Wholeness.NotWhole, set.Wholeness);
        Assert.Equal((place / 10, place % 10), (Assert.Single(set.Missing).Row, set.Missing[0].Column));
        Assert.Equal(place == 0 ? null : frames[place - 1].Name, set.Missing[0].After);
    }

    [Fact]
    public void A_setting_that_changes_in_a_set_is_named_and_the_set_not_called_whole()
    {
        var frames = Shot(Plan);
        frames[7] = frames[7] with { Settings = frames[7].Settings with { WhiteBalance = "automatic" } };
        var set = Sorted(frames).Sets[0];
        Assert.Equal(Wholeness.Uncertain, set.Wholeness);
        Assert.Equal([("white balance", "manual", "automatic"), ("white balance", "automatic", "manual")], set.Changed.Select(change => (change.Setting, change.From, change.To)));
        Assert.Equal(frames[7].Name, set.Changed[0].At);
    }

    [Fact]
    public void Of_two_sets_the_one_that_lacks_nothing_is_the_better()
    {
        var choice = Assert.Single(Sorted([.. Shot(Plan).Where((_, i) => i != 5)]).Choices);
        Assert.Equal(1, choice.Better);
    }

    [Fact]
    public void A_border_at_a_frame_that_is_gone_is_told_and_stands_for_nothing()
    {
        var sorted = TakeSorter.Sort(
            Shot(Plan), Plan, borders: new HandBorders([("gone.dng", "IMG_00020.dng")], new HashSet<string>()), cancel: TestContext.Current.CancellationToken);
        Assert.Contains(sorted.Cautions, caution => caution.Contains("gone.dng", StringComparison.Ordinal));
        Assert.All(sorted.Sets, set => Assert.False(set.IsByHand));
    }

    [Fact]
    public void The_drift_is_found_from_what_neighbours_share()
    {
        const double stopsPerS = 0.004;
        var panorama = new MadePanorama(new Random(3));
        var frames = Shot(Plan).Zip(Plan.Exposures, (frame, exposure) => frame with
        {
            Glance = panorama.Glance(exposure.Column * 0.6, exposure.Row * 0.6, stopsPerS * exposure.Start.TotalSeconds),
        }).ToList();
        var set = Sorted(frames).Sets[0];
        // A strip is 6 of 16 columns, the overlap 6.4: the rest of the panorama leaks in.
        Assert.Equal(stopsPerS * Plan.FirstToLast.TotalSeconds, set.Drift!.FirstToLastStops, 0.15);
        Assert.Equal([SweepDirection.LeftToRight, SweepDirection.LeftToRight], set.Drift.Sweeps.Select(sweep => sweep.Direction));
    }

    [Theory]
    [InlineData(RowOrder.OneWay, SweptRows.OneWay, true)]
    [InlineData(RowOrder.BackAndForth, SweptRows.BackAndForth, false)]
    public void The_order_of_the_rows_is_told_by_how_the_pictures_join(RowOrder shot, SweptRows found, bool isAsPlanned)
    {
        var panorama = new MadePanorama(new Random(3));
        var shotAs = new SetClock(10, 2, new ShootingOrder(rows: shot), new StepTimes(), repeats: 1);
        var frames = Shot(Plan).Zip(shotAs.Exposures, (frame, exposure) => frame with { Glance = panorama.Glance(exposure.Column * 0.6, exposure.Row * 0.6, 0) }).ToList();
        var set = Sorted(frames).Sets[0];
        Assert.Equal((found, isAsPlanned), (set.Order.Rows, set.Order.IsAsPlanned));
        Assert.Equal(isAsPlanned ? 0 : 1, set.Reasons.Count(reason => reason.StartsWith("Row 2 was swept from right to left", StringComparison.Ordinal)));
    }

    [Fact]
    public void Without_pictures_nothing_is_said_of_the_order_of_the_rows() => Assert.Equal((SweptRows.Unknown, null), (Sorted(Shot(Plan)).Sets[0].Order.Rows, Sorted(Shot(Plan)).Sets[0].Order.IsAsPlanned));

    [Fact]
    public void Twenty_thousand_frames_are_sorted()
    {
        var clock = new SetClock(10, 1, new ShootingOrder(), new StepTimes(), repeats: 1999);
        var sorted = Sorted(Shot(clock), clock);
        Assert.Equal(2000, sorted.Sets.Count);
        Assert.All(sorted.Sets, set => Assert.Equal(10, set.Frames.Count));
    }

    [Fact]
    public void Sorting_is_stopped_in_the_middle_of_a_session()
    {
        using var stop = new CancellationTokenSource();
        var facts = new SessionFacts(Shot(Plan), [.. Plan.Exposures.Select(exposure => exposure.Start.TotalSeconds)], 0.4, stop.Token);
        stop.Cancel();
        Assert.Throws<OperationCanceledException>(() => Alignment.Best(facts, 0..facts.Count, SetRhythm.Of(Plan)));
    }

    [Fact]
    public void Your_own_times_are_those_the_take_was_shot_with()
    {
        var yours = new StepTimes { Rotate = Duration.FromSeconds(3), RowChange = Duration.FromSeconds(9), RepeatGap = Duration.FromSeconds(12), Marker = Duration.Zero };
        var shot = new SetClock(10, 2, new ShootingOrder(), yours, repeats: 3);
        var plan = new StepTimes { Marker = Duration.Zero };
        var own = OwnTimes.Of(Sorted(Shot(shot), new SetClock(10, 2, new ShootingOrder(), plan, repeats: 3)), plan, new ShootingOrder(), Bracket.None)!;
        Assert.Equal(3, own.Rotate!.Value.TotalSeconds, 1e-6);
        Assert.Equal(9, own.RowChange!.Value.TotalSeconds, 1e-6);
        Assert.Equal(12, own.RepeatGap!.Value.TotalSeconds, 1e-6);
        Assert.Null(own.Marker);
    }

    private static SortedTake Sorted(IReadOnlyList<ShotFrame> frames, SetClock? clock = null) => MadeTake.Sorted(frames, clock ?? Plan);

    private static List<ShotFrame> Shot(SetClock clock) => MadeTake.Shot(clock);
}
