using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>Sets over light that is made by hand, bearing by bearing: what fits, what fails first, and how sure it is.</summary>
public class SetJudgeTests
{
    private static readonly Instant Dawn = Instant.FromUtc(2026, 10, 20, 5, 0);
    private static readonly PlannedSet Set = ValleyLight.Set(ValleyLight.Plan.Set with { Rows = 1 });
    private static readonly double TotalS = Set.Clock.Exposures[^1].End.TotalSeconds;

    // A minute of light is 60 s after dawn; the ridge is lit from "ridge" on, the valley in shade until "valley".
    [Theory]
    [InlineData("an hour of light, known to a minute", 600, 4200, 60, 60, Verdict.Fits)]
    [InlineData("an hour of light, known to half an hour", 600, 4200, 1800, 1800, Verdict.Tight)]
    [InlineData("room of one minute, known to the watch", 600, 685, 0, 0, Verdict.Fits)]
    [InlineData("room of one minute, known to one", 600, 685, 60, 60, Verdict.TooLong)]
    [InlineData("room of three minutes, known to one", 600, 805, 60, 60, Verdict.Tight)]
    [InlineData("light shorter than the set", 600, 640, 60, 60, Verdict.TooLong)]
    public void The_verdict_is_the_chance(string situation, double ridgeS, double valleyS, double openS, double closeS, Verdict verdict)
    {
        var fit = Fit(Day(ridgeS, valleyS, openS, closeS));
        Assert.True(verdict == fit.Verdict, $"{situation}: {fit.Verdict}, {fit.Chance}, {fit.Room}");
    }

    [Fact]
    public void The_chance_of_a_start_is_that_of_both_its_ends()
    {
        var fit = Fit(Day(600, 4200, 60, 90));
        foreach (var row in fit.Starts)
        {
            var startS = (row.Start - Dawn).TotalSeconds;
            var (a, b) = ((startS + 3 - 600) / Hypot(60), (4200 - startS - TotalS) / Hypot(90));
            Assert.Equal(Phi(a) * Phi(b), row.Chance, 1e-6);
        }
        static double Hypot(double sigma) => Math.Sqrt((sigma * sigma) + (15 * 15));
        static double Phi(double x) => MathNet.Numerics.Distributions.Normal.CDF(0, 1, x);
    }

    [Fact]
    public void A_morning_whose_both_ends_come_by_the_same_air_is_surer_in_length()
    {
        // Ridge and valley are both reached by the sun: more refraction makes both earlier.
        var alone = EdgeDoubt.Correlation(Doubt(60), Doubt(60), comesAndGoes: false);
        var together = EdgeDoubt.Correlation(Doubt(0, refraction: 60), Doubt(0, refraction: 60), comesAndGoes: false);
        var opposed = EdgeDoubt.Correlation(Doubt(0, refraction: 60), Doubt(0, refraction: 60), comesAndGoes: true);
        Assert.Equal(0, alone);
        Assert.Equal(3600 / 3825.0, together, 1e-12);
        Assert.Equal(-together, opposed);
        Assert.Equal(60 * 30 / (Math.Sqrt(3825) * Math.Sqrt((30 * 30) + 225)), EdgeDoubt.Correlation(Doubt(0, sight: 60), Doubt(0, sight: 30), false), 1e-12);
    }

    // Both ends are known to ± hypot(30, 15) = 34 s.
    [Theory]
    [InlineData(0, 0.9, Verdict.Fits)]
    [InlineData(20, 0.9, Verdict.Fits)]
    [InlineData(33, 0.9, Verdict.Fits)]
    [InlineData(34, 0.8, Verdict.Tight)]
    [InlineData(1080, 0.8, Verdict.Tight)]
    public void Ground_past_the_grid_lowers_the_verdict_where_it_would_move_an_end_by_more_than_that_is_known_to(int couldMoveS, double chance, Verdict verdict)
    {
        var fit = Fit(Day(600, 4200, 30, 30, beyond: new UnknownGround(Length.FromKilometres(40), null, Duration.FromSeconds(couldMoveS))));
        Assert.Equal((chance, verdict, true), (fit.Chance, fit.Verdict, fit.IsCapped));
        Assert.Contains(fit.Reasons, reason => reason.Code == FitReasonCode.UnknownBeyond && reason.By == Duration.FromSeconds(couldMoveS));
        Assert.False(Fit(Day(600, 4200, 30, 30)).IsCapped);
        Assert.InRange(Fit(Day(600, 4200, 30, 30)).Chance, 0.97, 1);
    }

    // Of the two ends the ridge's is the one with unknown ground before it, and that is enough.
    [Fact]
    public void One_end_that_unknown_ground_could_move_is_enough()
    {
        var fit = Fit(Day(600, 4200, 30, 30, beyond: new UnknownGround(Length.FromKilometres(40), null, Duration.FromMinutes(18)), isRidgeAlone: true));
        Assert.Equal((0.8, Verdict.Tight), (fit.Chance, fit.Verdict));
    }

    [Fact]
    public void A_set_does_not_fit_where_its_ridge_cannot_be_told_from_the_sky()
    {
        var day = Day(600, 4200, 30, 30);
        var fit = Fit(day with { Windows = [day.Windows[0] with { IsRidgeSeen = false }] });
        Assert.Equal((0.0, Verdict.TooLong), (fit.Chance, fit.Verdict));
        Assert.Equal(FitReasonCode.RidgeNotSeen, fit.Reasons[0].Code);
    }

    [Theory]
    [InlineData(0.02, 1)]
    [InlineData(8, 1)]
    [InlineData(8, 3)]
    public void Each_window_s_set_takes_as_long_as_the_exposures_that_its_light_asks_for(double exposureS, int windows)
    {
        var day = Day(600, 4200, 30, 30);
        var others = Enumerable.Repeat(day.Windows[0] with { Stretch = new Stretch(600, 700), Exposure = Duration.FromSeconds(60) }, windows - 1);
        var fit = Fit(day with { Windows = [.. others, day.Windows[0] with { Exposure = Duration.FromSeconds(exposureS) }] });
        var longer = fit.Judged!.Sets.TotalS - new SetSequence(Set).TotalS;
        Assert.Equal(Set.Clock.Exposures.Count * (exposureS - Set.Layout.Settings.Times.Exposure.TotalSeconds), longer, 1e-6);
    }

    [Fact]
    public void A_late_sliver_of_ridge_is_what_holds_the_start_back()
    {
        // All of the ridge is lit at 600 s but for 4° on the right, which wait until 2000 s.
        var fit = Fit(Day(600, 4200, 30, 30, lit: bearing => bearing > 286 ? 2000 : 600));
        Assert.True((fit.EarliestStart!.Value - Dawn).TotalSeconds > 1900, $"{fit.EarliestStart}");
        var early = fit.Judged!.At(Dawn + Duration.FromSeconds(1000));
        Assert.InRange(early.InLight, 1, Set.Clock.Exposures.Count - 1);
        Assert.Equal(FrameProblem.RidgeNotYetLit, early.FirstProblem!.Problem);
        Assert.True(early.FirstProblem.Bearing.Degrees > 280, $"{early.FirstProblem.Bearing}");
        Assert.True(early.Chance < 0.001);
    }

    [Theory]
    [InlineData("before the ridge is lit", 0, FrameProblem.RidgeNotYetLit)]
    [InlineData("the sun reaches the valley while the shutter is open", 4199.99, FrameProblem.ValleyLit)]
    [InlineData("the valley has been lit for long", 5000, FrameProblem.ValleyLit)]
    [InlineData("the ridge is dark again", 9000, FrameProblem.RidgeNoLongerLit)]
    public void A_frame_is_judged_over_its_whole_exposure(string situation, double opensS, FrameProblem problem)
    {
        var day = Day(600, 4200, 30, 30);
        var frames = new FrameLight(day.Windows[0].Span, day.Windows[0].Stretch, Set.Layout);
        Assert.False(frames.Holds(1, new Stretch(opensS, opensS + 0.02)), situation);
        Assert.Equal(problem, frames.ProblemOf(1, new Stretch(opensS, opensS + 0.02)));
        Assert.True(frames.Holds(1, new Stretch(600, 600.02)));
        Assert.False(frames.Holds(1, new Stretch(599.99, 600.01)));
        Assert.False(frames.Holds(1, new Stretch(4199.99, 4200)));
        Assert.True(frames.Holds(1, new Stretch(4199.97, 4199.99)));
    }

    [Fact]
    public void A_valley_that_is_lit_and_falls_into_shade_again_is_not_yet_shaded()
    {
        var day = Day(600, 4200, 30, 30) with { };
        var span = day.Windows[0].Span with { Shaded = [new Stretch(0, 1000), new Stretch(3000, 4200)] };
        var frames = new FrameLight(span, new Stretch(3000, 4200), Set.Layout);
        Assert.Equal(FrameProblem.ValleyNotYetShaded, frames.ProblemOf(1, new Stretch(2000, 2000.02)));
        // Shade that ends under the open shutter has ended, though more is to come.
        Assert.Equal(FrameProblem.ValleyLit, frames.ProblemOf(1, new Stretch(999.99, 1000.01)));
    }

    [Fact]
    public void A_start_that_the_plan_gives_is_judged_like_any_other()
    {
        var day = Day(600, 4200, 60, 60);
        var advised = Fit(day);
        foreach (var (clock, verdict) in new[] { (new LocalTime(5, 30), Verdict.Fits), (new LocalTime(5, 11), Verdict.Tight), (new LocalTime(5, 5), Verdict.TooLong), (new LocalTime(6, 30), Verdict.TooLong) })
        {
            var fit = Fit(day with { Wishes = day.Wishes with { Start = new StartWish.OnTheClock(clock) } });
            var at = Dawn + (clock - new LocalTime(5, 0)).ToDuration();
            Assert.Equal((at, StartReason.Given, verdict), (fit.ChosenStart, fit.ChosenBecause, fit.Verdict));
            Assert.Equal(advised.Judged!.At(at).Chance, fit.Chance, 1e-12);
            Assert.Equal(advised.RecommendedStart, fit.RecommendedStart);
            Assert.Equal(advised.Margin!.Value.TotalSeconds, (fit.Room!.Before + fit.Room.After).TotalSeconds, 1e-6);
        }
    }

    [Fact]
    public void A_start_after_the_light_keeps_its_place_in_it_on_another_day()
    {
        var wish = new StartWish.AfterTheLight(DayHalf.Morning, Duration.FromMinutes(4));
        foreach (var opensS in new[] { 600.0, 1500.5 })
        {
            var day = Day(opensS, 6000, 60, 60);
            var fit = Fit(day with { Wishes = day.Wishes with { Start = wish } });
            Assert.Equal(Math.Ceiling(opensS) + 240, (fit.ChosenStart!.Value - Dawn).TotalSeconds, 1e-9);
        }
        var noEvening = Day(600, 4200, 60, 60);
        Assert.Equal(
            Fit(noEvening).ChosenStart,
            Fit(noEvening with { Wishes = noEvening.Wishes with { Start = new StartWish.AfterTheLight(DayHalf.Evening, Duration.Zero) } }).ChosenStart);
    }

    private static SetFit Fit(JudgedDay day) => FitSearch.Fit(day, new SetSequence(Set));

    private static EdgeDoubt Doubt(double own, double sight = 0, double refraction = 0, UnknownGround? beyond = null) => new(own, sight, refraction, 0, beyond, null);

    /// <summary>A ridge lit until 8000 s, a valley in shade until a moment.</summary>
    private static JudgedDay Day(double ridgeS, double valleyS, double openS, double closeS, UnknownGround? beyond = null, bool isRidgeAlone = false, Func<double, double>? lit = null)
    {
        const double lengthS = 10_000;
        var bearings = Enumerable.Range(0, 200).Select(i => 245.125 + (0.25 * i)).ToList();
        var span = new SpanLight(
            [.. bearings.Select(Azimuth.FromDegrees)], [.. bearings.Select(bearing => (IReadOnlyList<Stretch>)[new Stretch(lit?.Invoke(bearing) ?? ridgeS, 8000)])],
            [new Stretch(0, valleyS)], 0.9, lengthS);
        var track = SunTrack.Over(new Interval(Dawn, Dawn + Duration.FromSeconds(lengthS)));
        return new JudgedDay(
            [new JudgedWindow(span, new Stretch(ridgeS, valleyS), DayHalf.Morning, RidgeBrightness.Of(Valley, track, new Haze(0.05)))],
            seconds => Dawn + Duration.FromSeconds(seconds),
            new EdgeDoubts(lengthS, (_, isRidge) => Doubt(isRidge ? openS : closeS, beyond: isRidge || !isRidgeAlone ? beyond : null)),
            new SetWishes(10, ChanceBounds.Usual, null, [], false, time => Dawn + (time - new LocalTime(5, 0)).ToDuration()));
    }

    private static readonly Place Valley = Tests.Light.Valley.WestCrest;
}
