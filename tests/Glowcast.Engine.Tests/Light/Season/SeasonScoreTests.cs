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
    public void A_set_that_does_not_fit_costs_more_than_half_the_score()
    {
        var fits = Score.Of(Usual with { Time = Lasting(5) });
        var short_ = Score.Of(Usual with { Time = Lasting(4) });
        Assert.Equal((1.0, 0.4), (fits.Shortfall, short_.Shortfall));
        Assert.Equal(0.4 * fits.Total, short_.Total, 1e-9);
        Assert.Contains("does not fit", string.Join(' ', short_.Reasons), StringComparison.Ordinal);
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
        Assert.Equal(Enum.GetValues<SeasonAspect>(), parts.Select(part => part.Aspect));
        Assert.All(parts, part => Assert.EndsWith(".", part.Reason, StringComparison.Ordinal));
    }

    private static ScorePart Part(SeasonWindow window, SeasonAspect aspect) => Score.Of(window).Parts.Single(part => part.Aspect == aspect);

    private static Interval Lasting(double minutes) => new(Instant.FromUnixTimeSeconds(0), Instant.FromUnixTimeSeconds((long)(60 * minutes)));

    private static BlackPoint Black(double stops) => new(stops, 5, Length.FromKilometres(20), null, null);
}
