using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

public class SeasonScoreTests
{
    private static readonly SeasonWindow Usual = new()
    {
        Time = Lasting(40),
        Begins = new LocalDateTime(2026, 1, 1, 8, 0),
        Half = DayHalf.Morning,
        RidgeShare = 0.95,
        ValleyShare = 0.1,
        SunAltitudeDeg = 4,
        SunFromViewDeg = 100,
        Relief = new RidgeShadow(0.2, 0.1, 0.6, 1),
        BlackPoint = Black(2.5),
        BeamColour = Chromaticity.OfPlanckian(3300),
        Moon = new MoonThen(14, 0.99, -10, Azimuth.FromDegrees(300), false),
        Thresholds = LightThresholds.Usual,
    };

    private static readonly SeasonScore Score = new(Duration.FromMinutes(5));

    public static TheoryData<SeasonAspect, SeasonWindow> Better => new()
    {
        { SeasonAspect.Coverage, Usual with { RidgeShare = 1 } },
        { SeasonAspect.ValleyShade, Usual with { ValleyShare = 0 } },
        { SeasonAspect.Length, Usual with { Time = Lasting(80) } },
        { SeasonAspect.Colour, Usual with { BeamColour = Chromaticity.OfPlanckian(2600) } },
        { SeasonAspect.BlackPoint, Usual with { BlackPoint = Black(4) } },
        { SeasonAspect.Moon, Usual with { Moon = Usual.Moon with { AltitudeDeg = 5, InSpan = true } } },
    };

    [Theory]
    [MemberData(nameof(Better))]
    public void What_is_better_in_one_respect_scores_higher_by_that_part_alone(SeasonAspect aspect, SeasonWindow better)
    {
        var (usual, improved) = (Score.Of(Usual), Score.Of(better));
        Assert.True(improved.Total > usual.Total, $"{improved.Total} > {usual.Total}");
        var changed = usual.Parts.Zip(improved.Parts).Where(pair => pair.First.Value != pair.Second.Value).ToList();
        Assert.Equal(aspect, Assert.Single(changed).First.Aspect);
        Assert.NotEqual(changed[0].First.Reason, changed[0].Second.Reason);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.1, 0.5)]
    [InlineData(0.4, 1)]
    [InlineData(0.8, 0.5)]
    [InlineData(1, 0)]
    public void Relief_is_best_where_light_and_shadow_share_the_ridge(double shadow, double value) => Assert.Equal(
        value, Part(Usual with { Relief = new RidgeShadow(shadow, 0, 0.5, 1) }, SeasonAspect.Relief).Value!.Value, 1e-9);

    [Theory]
    [InlineData(3, 0)]
    [InlineData(5, 0.5)]
    [InlineData(12, 1)]
    [InlineData(22, 0.5)]
    public void The_middle_of_the_night_is_no_hour_to_be_there(int hour, double value) => Assert.Equal(
        value, Part(Usual with { Begins = new LocalDateTime(2026, 1, 1, hour, 0) }, SeasonAspect.Hour).Value!.Value, 1e-9);

    [Fact]
    public void A_score_is_worth_as_much_as_the_chance_that_the_set_has_its_light()
    {
        var (sure, doubtful, none) = (Score.Of(Usual with { Fit = Fit(Verdict.Fits, 1, 12) }), Score.Of(Usual with { Fit = Fit(Verdict.Tight, 0.6, 12) }), Score.Of(Usual with { Fit = Fit(Verdict.TooLong, 0, -2) }));
        Assert.Equal((1.0, 0.6, 0.0), (sure.Shortfall, doubtful.Shortfall, none.Shortfall));
        Assert.Equal(0.6 * sure.Total, doubtful.Total, 1e-9);
        Assert.Equal(0, none.Total);
    }

    [Theory]
    [InlineData("it fits with half an hour of starts", Verdict.Fits, 30, "its starts 30 min: the set fits")]
    [InlineData("it is tight", Verdict.Tight, 3, "its starts 3 min: the set is tight")]
    [InlineData("possible, but less sure than luck", Verdict.TooLong, 0.5, "less than they are sure by: the set does not fit")]
    [InlineData("a window longer than the set, and still not all at once", Verdict.TooLong, -1.75, "the set is 1.8 min too long and does not fit")]
    public void The_season_says_what_the_judge_says(string situation, Verdict verdict, double roomMin, string said)
    {
        var reason = Part(Usual with { Fit = Fit(verdict, 0.7, roomMin) }, SeasonAspect.Length).Reason;
        Assert.True(reason.Contains(said, StringComparison.Ordinal) && !reason.Contains("times", StringComparison.Ordinal), $"{situation}: {reason}");
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(20, 0.5)]
    [InlineData(40, 0.75)]
    public void Twenty_minutes_of_starts_are_half_the_room_anybody_could_wish_for(double roomMin, double value) =>
        Assert.Equal(value, Part(Usual with { Fit = Fit(Verdict.Fits, 1, roomMin) }, SeasonAspect.Length).Value!.Value, 1e-9);

    [Fact]
    public void A_long_set_wishes_for_three_sets_of_room() => Assert.Equal(
        0.5, new SeasonScore(Duration.FromMinutes(20)).Of(Usual with { Fit = Fit(Verdict.Fits, 1, 60) }).Parts.Single(part => part.Aspect == SeasonAspect.Length).Value!.Value, 1e-9);

    [Fact]
    public void Weights_of_ones_own_decide_which_day_is_better()
    {
        var (red, deep) = (Usual with { BeamColour = Chromaticity.OfPlanckian(1800) }, Usual with { BlackPoint = Black(4.5) });
        Assert.True(Weighing((SeasonAspect.Colour, 1), (SeasonAspect.BlackPoint, 0)).Of(red).Total > Weighing((SeasonAspect.Colour, 1), (SeasonAspect.BlackPoint, 0)).Of(deep).Total);
        Assert.True(Weighing((SeasonAspect.Colour, 0), (SeasonAspect.BlackPoint, 1)).Of(red).Total < Weighing((SeasonAspect.Colour, 0), (SeasonAspect.BlackPoint, 1)).Of(deep).Total);
        var none = Weighing([.. Enum.GetValues<SeasonAspect>().Select(aspect => (aspect, 0.0))]).Of(Usual);
        Assert.Equal(0, none.Total);
    }

    [Fact]
    public void A_sky_that_is_clear_more_often_counts_where_it_is_known()
    {
        var clear = Score with { ClearSky = (date, half) => date.Month == 1 && half == DayHalf.Morning ? 0.7 : null };
        var part = clear.Of(Usual).Parts.Single(part => part.Aspect == SeasonAspect.ClearSky);
        Assert.Equal(0.7, part.Value);
        Assert.DoesNotContain(clear.Of(Usual with { Half = DayHalf.Evening }).Parts, part => part.Aspect == SeasonAspect.ClearSky);
        Assert.Equal(1, clear.Of(Usual).Parts.Sum(part => part.Weight), 1e-9);
    }

    [Fact]
    public void A_part_that_cannot_be_judged_counts_for_nothing()
    {
        var without = Score.Of(Usual with { ValleyShare = null });
        Assert.Null(without.Parts.Single(part => part.Aspect == SeasonAspect.ValleyShade).Value);
        var others = Score.Of(Usual).Parts.Where(part => part.Aspect != SeasonAspect.ValleyShade).ToList();
        Assert.Equal(others.Sum(part => part.Weight * part.Value!.Value) / others.Sum(part => part.Weight), without.Total, 1e-9);
    }

    [Fact]
    public void Weights_add_up_to_one_and_every_aspect_has_its_reason()
    {
        var parts = Score.Of(Usual).Parts;
        Assert.Equal(1, parts.Sum(part => part.Weight), 1e-9);
        Assert.Equal(Enum.GetValues<SeasonAspect>().Where(aspect => aspect != SeasonAspect.ClearSky), parts.Select(part => part.Aspect));
        Assert.All(parts, part => Assert.EndsWith(".", part.Reason, StringComparison.Ordinal));
    }

    private static SeasonScore Weighing(params IReadOnlyList<(SeasonAspect Aspect, double Weight)> weights) =>
        Score with { Weights = SeasonWeights.With(weights.Select(entry => KeyValuePair.Create(entry.Aspect, entry.Weight))) };

    private static DayFit Fit(Verdict verdict, double chance, double roomMin) =>
        new(verdict, chance, null, null, Instant.FromUnixTimeSeconds(0), Instant.FromUnixTimeSeconds(60), Duration.FromMinutes(roomMin), false);

    private static ScorePart Part(SeasonWindow window, SeasonAspect aspect) => Score.Of(window).Parts.Single(part => part.Aspect == aspect);

    private static Interval Lasting(double minutes) => new(Instant.FromUnixTimeSeconds(0), Instant.FromUnixTimeSeconds((long)(60 * minutes)));

    private static BlackPoint Black(double stops) => new(stops, 5, Length.FromKilometres(20), null, null);
}
