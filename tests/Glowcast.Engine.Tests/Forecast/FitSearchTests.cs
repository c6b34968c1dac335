using FsCheck.Xunit;
using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Tests.Capture;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>Sets made up at random, laid over one morning's light.</summary>
public class FitSearchTests
{
    private static readonly SetSettings Settings = ValleyLight.Plan.Set;

    [Property(Arbitrary = [typeof(Shoots)], MaxTest = 30)]
    public void Every_exposure_has_its_light_from_any_possible_start_and_one_misses_it_just_outside(Sweep sweep, SweepDirection direction, RowOrder rows)
    {
        var settings = SettingsOf(sweep, direction, rows);
        var fit = ValleyLight.Fit(settings);
        if (!fit.IsPossible) return;

        var set = ValleyLight.Set(settings);
        bool All(Instant start) => set.Clock.Exposures.All(exposure =>
            ValleyLight.HasLight(set.Layout.FrameAt(exposure.Row, exposure.Column), set.Layout.Field.Horizontal, start + exposure.Start)
            && ValleyLight.HasLight(set.Layout.FrameAt(exposure.Row, exposure.Column), set.Layout.Field.Horizontal, start + exposure.End));
        var (earliest, latest, hair) = (fit.EarliestStart!.Value, fit.LatestStart!.Value, Duration.FromMilliseconds(1));
        Assert.All([earliest + hair, fit.RecommendedStart!.Value, latest - hair], start => Assert.True(All(start), $"{start}"));
        Assert.False(All(earliest - hair));
        Assert.False(All(latest + hair));
    }

    [Property(Arbitrary = [typeof(Shoots)], MaxTest = 30)]
    public void The_margin_falls_one_for_one_with_the_start_and_with_every_second_of_delay(Sweep sweep)
    {
        var settings = SettingsOf(sweep, SweepDirection.LeftToRight, RowOrder.OneWay);
        var fit = ValleyLight.Fit(settings);
        if (!fit.IsPossible) return;
        var later = Duration.FromSeconds(7);

        Assert.Equal(fit.Margin!.Value.TotalSeconds, fit.MarginFrom(fit.EarliestStart!.Value).TotalSeconds, 1e-6);
        Assert.Equal(fit.Margin.Value.TotalSeconds - 7, fit.MarginFrom(fit.EarliestStart.Value + later).TotalSeconds, 1e-6);
        // A marker longer by as much moves every exposure: the same light allows starts earlier by as much.
        var delayed = ValleyLight.Fit(settings with { Repeats = 0, Times = settings.Times with { Marker = settings.Times.Marker + later } });
        var prompt = ValleyLight.Fit(settings with { Repeats = 0 });
        Assert.Equal(-later.TotalSeconds, (delayed.EarliestStart!.Value - prompt.EarliestStart!.Value).TotalSeconds, 1e-3);
        Assert.Equal(-later.TotalSeconds, (delayed.LatestStart!.Value - prompt.LatestStart!.Value).TotalSeconds, 1e-3);
    }

    [Fact]
    public void A_set_that_is_too_long_begins_when_every_frame_has_its_light_and_fails_where_the_light_has_gone()
    {
        var settings = Settings with { Repeats = 150 };
        var (set, fit) = (ValleyLight.Set(settings), ValleyLight.Fit(settings));
        Assert.Equal(ValleyLight.Fit(Settings).EarliestStart, fit.BestStart);
        Assert.Equal(FrameProblem.ValleyLit, fit.FirstProblem!.Problem);
        Assert.All(set.Clock.Exposures.TakeWhile(exposure => exposure != fit.FirstProblem.Exposure), exposure => Assert.True(
            ValleyLight.HasLight(set.Layout.FrameAt(exposure.Row, exposure.Column), set.Layout.Field.Horizontal, fit.BestStart!.Value + exposure.Start + Duration.FromMilliseconds(1))));
    }

    [Fact]
    public void Be_at_the_spot_in_time_to_set_up_every_row()
    {
        var fit = ValleyLight.Fit(Settings);
        // Common practice: 150 + 60 + 30 + 40 + 2 · 90 + 45 + 40 s.
        Assert.Equal(545, fit.SetUp.TotalSeconds, 1e-9);
        Assert.Equal(fit.SetUp, fit.RecommendedStart!.Value - fit.OnSiteBy!.Value);
        Assert.Equal(fit.SetUp, fit.EarliestStart!.Value - fit.OnSiteForEarliest!.Value);
    }

    [Fact]
    public void The_start_advised_is_as_safe_as_any_to_2_percent_and_no_other_so_safe_has_richer_light()
    {
        var fit = ValleyLight.Fit(Settings, toleranceStops: 10);
        var (judge, day) = (fit.Judged!.Judge, fit.Judged.Day);
        var starts = fit.Starts.Where(row => row.Start >= fit.EarliestStart && row.Start <= fit.LatestStart).Select(row => row.Start).ToList();
        var safest = starts.Max(Sureness);
        Assert.True(Sureness(fit.RecommendedStart!.Value) >= safest - 0.02, $"{Sureness(fit.RecommendedStart.Value)} {safest}");
        // Starts are looked at every half minute of these 56; between two looks the light may be so much richer.
        const double BetweenLooks = 0.005;
        Assert.All(starts.Where(start => Sureness(start) >= safest - 0.02), start => Assert.True(Richness(start) <= Richness(fit.RecommendedStart.Value) + BetweenLooks, $"{start}"));
        Assert.NotEqual(StartReason.Safest, fit.RecommendedBecause);

        double Sureness(Instant start) => judge.Best!.ChanceOf(day.SecondsAt(start));
        double Richness(Instant start)
        {
            var light = ValleyLight.Day.Ridge.At(start + (ValleyLight.Set(Settings).Clock.Total / 2));
            return LightRichness.Warmth(light.DirectColour) + LightRichness.Depth(light);
        }
    }

    [Fact]
    public void A_later_start_is_recommended_where_the_morning_brightens_too_fast_and_the_drift_is_then_within_tolerance()
    {
        var middle = ValleyLight.Fit(Settings, toleranceStops: 10);
        var tolerance = 0.9 * middle.Drift!.FirstToLastStops;
        var fit = ValleyLight.Fit(Settings, tolerance);

        Assert.True(fit.RecommendedStart > middle.RecommendedStart);
        Assert.True(fit.Drift!.IsWithinTolerance);
        Assert.Empty(fit.Drift.Advice);
        var set = ValleyLight.Set(Settings).Clock.Exposures;
        var start = fit.RecommendedStart!.Value;
        Assert.Equal(ValleyLight.Day.Ridge.StopsFrom(start + set[0].Start, start + set[^1].Start), fit.Drift.FirstToLastStops, 1e-9);
    }

    [Fact]
    public void Without_any_start_within_tolerance_the_one_of_least_drift_is_recommended_clear_of_the_ends_and_the_rows_are_stepped()
    {
        var slow = Settings with { Times = Settings.Times with { Settle = Duration.FromSeconds(12), RowChange = Duration.FromSeconds(120) } };
        var fit = ValleyLight.Fit(slow, toleranceStops: 0.05);
        var drift = fit.Drift!;

        Assert.False(drift.IsWithinTolerance);
        Assert.True(fit.Room!.After > fit.Room.AfterUncertainty);
        Assert.Contains("brightens", drift.Advice[0], StringComparison.Ordinal);
        Assert.Equal(2, drift.Rows.Count);
        Assert.Equal(0, drift.Rows[0].BrighterStops, 1e-9);
        Assert.Equal(0, drift.Rows[0].Thirds);
        // A row later is brighter, and so it is exposed for less, by the nearest third.
        Assert.True(drift.Rows[1].BrighterStops > 0);
        Assert.Equal(-Math.Round(3 * drift.Rows[1].BrighterStops), drift.Rows[1].Thirds, 1e-9);
    }

    [Fact]
    public void Stepping_the_rows_leaves_no_more_than_a_row_and_a_rounding_apart()
    {
        var slow = Settings with { Rows = 3, Times = Settings.Times with { RowChange = Duration.FromMinutes(4) } };
        var fit = ValleyLight.Fit(slow, toleranceStops: 0.05);
        var drift = fit.Drift!;
        Assert.Contains(drift.Rows, row => row.Thirds < 0);
        Assert.True(drift.LeftStops < Math.Abs(drift.FirstToLastStops), drift.ToString());
        var clock = ValleyLight.Set(slow).Clock;
        var start = fit.RecommendedStart!.Value;
        var widest = Enumerable.Range(0, 3).Max(row => Math.Abs(ValleyLight.Day.Ridge.StopsFrom(
            start + clock.Exposures.First(exposure => exposure.Row == row).Start, start + clock.Exposures.Last(exposure => exposure.Row == row).Start)));
        Assert.True(drift.LeftStops <= widest + (1.0 / 3), $"{drift.LeftStops} {widest}");
    }

    private static SetSettings SettingsOf(Sweep sweep, SweepDirection direction, RowOrder rows) => Settings with
    {
        Columns = sweep.Columns,
        Rows = Math.Min(sweep.Rows, 3),
        Repeats = sweep.Repeats,
        Times = sweep.Times,
        Order = new ShootingOrder(direction, rows, Math.Min(sweep.FirstRow, Math.Min(sweep.Rows, 3) - 1)),
    };
}
