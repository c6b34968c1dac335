using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Light;
using Glowcast.Engine.Tests.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>The set laid over the light of the hand-made valley, whose crest is lit all at once.</summary>
public class ForecasterTests
{
    private static readonly Plan Plan = new()
    {
        Lookout = new Lookout(Valley.Lookout.Point, Length.FromMetres(1.7), null),
        Date = new LocalDate(2026, 10, 20),
        Span = Valley.West,
        Gear = new Gear(
            new Camera(Length.FromMillimetres(36), Length.FromMillimetres(24), 8256, 5504), new Lens(Length.FromMillimetres(135), 11)),
        Set = new SetSettings { Rows = 2, Repeats = 0 },
        Thresholds = LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(8) },
    };

    [Fact]
    public void The_latest_start_is_the_end_of_the_light_less_the_length_of_the_set()
    {
        var forecast = Forecast(Plan);
        var window = forecast.Windows[0];
        var fit = forecast.Fit!;

        Assert.Equal(Verdict.Fits, fit.Verdict);
        // The last exposure closes when the valley is lit; writing it to the card may take longer.
        var lastCloses = forecast.Set!.Clock.Exposures[^1].End;
        Assert.Equal(0, (fit.LatestStart!.Value + lastCloses - window.End.At).TotalSeconds, 0.001);
        Assert.Equal(fit.Margin!.Value.TotalSeconds, (fit.LatestStart.Value - fit.EarliestStart!.Value).TotalSeconds, 0.001);
        Assert.Null(fit.FirstProblem);
        Assert.Empty(forecast.Remedies);
    }

    [Fact]
    public void Heights_that_the_plan_knows_better_make_surer_times_and_no_other_ones()
    {
        // By where the light falls alone: how strong it is does not hang on heights.
        var plan = Plan with { Thresholds = Plan.Thresholds with { LitStops = 1e-6 } };
        var (assumed, known) = (Forecast(plan), Forecast(plan with { HeightError = Length.FromMetres(0.2) }));
        Assert.Equal((HeightErrorSource.Assumed, HeightErrorSource.Plan), (assumed.Scene!.Grid.HeightError.Source, known.Scene!.Grid.HeightError.Source));
        foreach (var (before, after) in assumed.Windows.Zip(known.Windows))
        {
            Assert.Equal((before.Start.At, before.End.At), (after.Start.At, after.End.At));
            Assert.True(after.End.Uncertainty.TerrainS < before.End.Uncertainty.TerrainS);
            Assert.True(after.End.Uncertainty.CombinedS < before.End.Uncertainty.CombinedS);
        }
    }

    [Fact]
    public void A_longer_set_has_less_margin_second_for_second()
    {
        var once = Forecast(Plan);
        var thrice = Forecast(Plan with { Set = Plan.Set with { Repeats = 2 } });

        var longer = thrice.Set!.Clock.Exposures[^1].End - once.Set!.Clock.Exposures[^1].End;
        Assert.Equal(once.Fit!.Margin!.Value.TotalSeconds - longer.TotalSeconds, thrice.Fit!.Margin!.Value.TotalSeconds, 0.001);
        Assert.Equal(once.Fit.EarliestStart, thrice.Fit.EarliestStart);
    }

    [Fact]
    public void A_set_that_is_too_long_says_by_how_much_where_it_breaks_and_what_would_help()
    {
        var forecast = Forecast(Plan with { Set = Plan.Set with { Repeats = 150 } });
        var (fit, window) = (forecast.Fit!, forecast.Windows[0]);

        Assert.Equal(Verdict.TooLong, fit.Verdict);
        Assert.True(fit.Margin!.Value < Duration.Zero);
        Assert.Null(fit.EarliestStart);
        var problem = fit.FirstProblem!;
        Assert.Equal(FrameProblem.ValleyLit, problem.Problem);
        Assert.True(problem.At + (problem.Exposure.End - problem.Exposure.Start) >= window.End.At);
        // Started then, every exposure before the failing one has its light.
        var before = forecast.Set!.Clock.Exposures.TakeWhile(exposure => exposure != problem.Exposure).Last();
        Assert.True(fit.BestStart!.Value + before.End <= window.End.At);

        Assert.NotEmpty(forecast.Remedies);
        Assert.All(forecast.Remedies, remedy =>
        {
            Assert.True(remedy.Fit.IsPossible);
            Assert.True(remedy.Fit.LatestStart!.Value + remedy.Set.Clock.Exposures[^1].End <= window.End.At + Duration.FromMilliseconds(1));
        });
        Assert.Contains(forecast.Remedies, remedy => remedy.Set.Clock.Repeats == 0);
    }

    [Fact]
    public void Where_nothing_fits_a_day_is_named_that_has_room_and_it_has()
    {
        // Towards midsummer the windows of this valley grow by four minutes; a set ten seconds too long for today fits then.
        // By geometry alone, whose ends are known to the minute.
        var spring = ValleyLight.Plan with { Date = new LocalDate(2026, 4, 20) };
        var today = Forecast(spring);
        var slow = (today.Fit!.Margin!.Value + Duration.FromSeconds(10)).TotalSeconds / (today.Set!.Clock.FramesPerSet - 1);
        var plan = spring with { Set = Plan.Set with { Times = Plan.Set.Times with { Settle = Plan.Set.Times.Settle + Duration.FromSeconds(slow) } } };
        var forecast = Forecast(plan);
        Assert.Equal(Verdict.TooLong, forecast.Fit!.Verdict);

        var other = Assert.Single(forecast.Remedies, remedy => remedy.Change.StartsWith("Come on", StringComparison.Ordinal));

        var date = NodaTime.Text.LocalDatePattern.Iso.Parse(other.Change["Come on ".Length..^1]).Value;
        Assert.InRange(Period.DaysBetween(plan.Date!.Value, date), 1, 120);
        Assert.Equal(0, other.PrintCost.PixelsLost, 6);
        var there = Forecast(plan with { Date = date });
        Assert.True(there.Fit!.IsPossible);
        Assert.Equal(there.Fit.Margin!.Value.TotalSeconds, other.Fit.Margin!.Value.TotalSeconds, 60.0);
    }

    [Fact]
    public void A_frame_of_the_safety_set_counts_as_much_as_one_of_the_first()
    {
        var light = Forecast(Plan);
        var room = light.Windows[0].Length - light.Set!.Clock.Total;
        var repeats = (int)(room.TotalSeconds / light.Set.Clock.Total.TotalSeconds) + 1;
        Assert.Equal(Verdict.TooLong, Forecast(Plan with { Set = Plan.Set with { Repeats = repeats + 1 } }).Fit!.Verdict);
    }

    [Fact]
    public void The_row_with_the_crest_is_shot_first_and_the_crest_stands_a_third_below_the_top()
    {
        var forecast = Forecast(Plan);
        var set = forecast.Set!;
        var crest = forecast.Scene!.HighestCrest!.Value;
        Assert.Equal(set.RowOf(crest), set.Clock.Exposures[0].Row);
        Assert.Equal(2.0 / 3, CrestPlacement.Share(set.Layout.Clean, crest), 3);
        Assert.NotEmpty(set.OrderReasons);
    }

    [Fact]
    public void A_day_without_a_window_is_an_answer_with_a_reason()
    {
        // The northern face of a wall, in December.
        var wall = Grids.Square(46, 7, (row, _) => Math.Clamp(500 + (60 * (row - 800)), 500, 2000));
        var north = Plan with
        {
            Lookout = new Lookout(GeoPoint.FromDegrees(46.5, 7.5), Length.FromMetres(1.7), null),
            Date = new LocalDate(2026, 12, 21),
            Span = BearingSpan.FromDegrees(160, 200),
        };
        var forecast = Forecaster.Forecast(north, wall, cancel: TestContext.Current.CancellationToken);
        Assert.Empty(forecast.Windows);
        Assert.Contains("never reaches", forecast.WhyNone, StringComparison.Ordinal);
        Assert.Equal(Verdict.NoLight, forecast.Fit!.Verdict);
        Assert.NotEmpty(forecast.Cautions);
    }

    [Fact]
    public void Without_ridge_in_the_span_and_under_the_deck_the_answer_says_so()
    {
        var near = Forecast(Plan with { Thresholds = Plan.Thresholds with { RidgeFrom = Length.FromKilometres(60) } });
        Assert.Contains("no ridge", near.WhyNone, StringComparison.Ordinal);
        var drowned = Forecast(Plan with { Conditions = new Conditions { DeckTop = Length.FromMetres(1450) } });
        Assert.Contains("under the cloud", drowned.WhyNone, StringComparison.Ordinal);
        Assert.Null(drowned.Scene);
    }

    [Fact]
    public void A_lookout_outside_the_grid_is_refused_with_the_grids_bounds()
    {
        var away = Plan with { Lookout = new Lookout(GeoPoint.FromDegrees(45.5, 7.5), Length.FromMetres(1.7), null) };
        var refusal = Assert.Throws<BadInputException>(() => Forecast(away));
        Assert.Equal("lookout", Assert.Single(refusal.Faults).Field);
        Assert.Contains("from 46 to 47 latitude", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_set_that_cannot_be_shot_is_refused_before_any_light_is_worked_out()
    {
        var refusal = Assert.Throws<BadInputException>(() => Forecast(Plan with { Set = Plan.Set with { Rows = 20 } }));
        Assert.Equal("set", Assert.Single(refusal.Faults).Field);
    }

    private static LightForecast Forecast(Plan plan) => Forecaster.Forecast(plan, Valley.Grid, cancel: TestContext.Current.CancellationToken);
}
