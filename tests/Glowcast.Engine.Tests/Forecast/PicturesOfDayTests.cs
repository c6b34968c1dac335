using System.Text;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Tests.Light;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>What a day over the hand-made valley offers, and the one picture that a plan asks for.</summary>
public class PicturesOfDayTests
{
    private static readonly Plan Plan = ValleyLight.Plan with { ChooseExposure = true, Thresholds = LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(8) } };

    private static readonly Lazy<LightForecast> Usual = new(() => Forecaster.Forecast(Plan, Valley.Grid));

    [Fact]
    public void All_pictures_of_a_day_are_told_in_order_of_time_those_planned_among_them()
    {
        var forecast = Usual.Value;
        Assert.Equal(forecast.Pictures.OrderBy(picture => picture.Window.Start.At), forecast.Pictures);
        Assert.Equal(forecast.Windows.Select(SpanOf), forecast.Pictures.Where(picture => picture.Kind == PictureKind.LitRidgeOverDarkGround).Select(picture => SpanOf(picture.Window)));
        Assert.All([PictureKind.Twilight, PictureKind.LitRidge, PictureKind.LitRidgeOverDarkGround], kind => Assert.Contains(forecast.Pictures, picture => picture.Kind == kind));
    }

    [Fact]
    public void The_set_is_laid_into_each_from_a_start_within_it()
    {
        foreach (var (window, fit) in Usual.Value.Pictures)
        {
            Assert.NotNull(fit);
            Assert.True(window.Start.At < fit.Judged!.Sets.Shots.Max(shot => fit.ChosenStart!.Value + Duration.FromSeconds(shot.ClosesS)) && fit.ChosenStart < window.End.At, $"{window.Kind}");
            if (!fit.IsPossible) continue;
            Assert.True(fit.ChosenStart >= fit.EarliestStart - Duration.FromSeconds(1) && fit.ChosenStart <= fit.LatestStart, $"{window.Kind}");
            Assert.InRange(fit.Chance, Plan.Chances.Tight, 1);
        }
    }

    // Twilight is longer exposed than sunlit ground by many stops, and its set takes longer by so much.
    [Fact]
    public void Each_is_exposed_for_its_own_light()
    {
        var (twilight, lit) = (Of(PictureKind.Twilight), Of(PictureKind.LitRidge));
        Assert.True(twilight.Window.Tones!.Exposure!.Ev100 < lit.Window.Tones!.Exposure!.Ev100 - 5);
        Assert.True(twilight.Fit!.Judged!.Sets.TotalS > lit.Fit!.Judged!.Sets.TotalS);

        PictureOfDay Of(PictureKind kind) => Usual.Value.Pictures.First(picture => picture.Kind == kind);
    }

    [Theory]
    [InlineData(PictureKind.LitRidge)]
    [InlineData(PictureKind.Twilight)]
    public void The_picture_that_a_plan_asks_for_has_the_windows_the_set_and_the_verdict(PictureKind kind)
    {
        var forecast = Forecaster.Forecast(Plan with { Picture = kind }, Valley.Grid, cancel: TestContext.Current.CancellationToken);
        var own = Usual.Value.Pictures.Where(picture => picture.Kind == kind).ToList();
        Assert.Equal(own.Select(picture => SpanOf(picture.Window)), forecast.Windows.Select(SpanOf));
        Assert.Equal(own.Max(picture => picture.Fit!.Chance), forecast.Fit!.Chance, 1e-9);
        Assert.Contains(forecast.Windows, window => forecast.Fit.ChosenStart >= window.Start.At && forecast.Fit.ChosenStart < window.End.At);
        Assert.Equal(Usual.Value.Pictures.Select(picture => SpanOf(picture.Window)), forecast.Pictures.Select(picture => SpanOf(picture.Window)));
    }

    // In the afternoon the ridge in the west stands before the sun: the valley of a morning decides there nothing.
    [Fact]
    public void A_start_that_the_plan_gives_is_for_its_own_picture_alone()
    {
        var given = Forecaster.Forecast(Plan with { StartAt = new StartWish.OnTheClock(new LocalTime(3, 0)) }, Valley.Grid, cancel: TestContext.Current.CancellationToken);
        Assert.Equal(Verdict.TooLong, given.Fit!.Verdict);
        Assert.Equal(Usual.Value.Pictures.Select(picture => picture.Fit!.ChosenStart), given.Pictures.Select(picture => picture.Fit!.ChosenStart));
    }

    [Fact]
    public void A_picture_that_the_day_has_not_is_told_with_its_own_cause()
    {
        var forecast = Forecaster.Forecast(Plan with { Picture = PictureKind.OverShadedDeck }, Valley.Grid, cancel: TestContext.Current.CancellationToken);
        Assert.Empty(forecast.Windows);
        Assert.Equal(NoLightCause.NoSuchPicture, forecast.NoLight);
        Assert.Contains("No sea of cloud is given", forecast.WhyNone, StringComparison.Ordinal);
        Assert.NotEmpty(forecast.Pictures);
    }

    [Fact]
    public void Light_alone_has_the_same_windows_and_pictures_and_no_set()
    {
        var alone = Forecaster.LightAlone(Plan, Valley.Grid, cancel: TestContext.Current.CancellationToken);
        Assert.Equal(Usual.Value.Pictures.Select(picture => SpanOf(picture.Window)), alone.Pictures.Select(picture => SpanOf(picture.Window)));
        Assert.Equal(Usual.Value.Windows.Select(SpanOf), alone.Windows.Select(SpanOf));
        Assert.Null(alone.Set);
        Assert.Null(alone.Fit);
        Assert.All(alone.Pictures, picture => Assert.Null(picture.Fit));
        Assert.Empty(alone.Remedies);
    }

    // A season is good to a minute or two.
    [Fact]
    public void A_season_of_lit_ridges_asks_nothing_of_the_valley()
    {
        var day = Assert.Single(Forecaster.Season(Plan with { Picture = PictureKind.LitRidge }, Valley.Grid, Plan.Date!.Value, Plan.Date.Value, cancel: TestContext.Current.CancellationToken));
        var own = Usual.Value.Pictures.Where(picture => picture.Kind == PictureKind.LitRidge).Select(picture => picture.Window).ToList();
        Assert.Equal(own.Count, day.Windows.Count);
        foreach (var (window, same) in own.Zip(day.Windows.OrderBy(window => window.Time.Start)))
        {
            Assert.Equal(0, (window.Start.At - same.Time.Start).TotalMinutes, 3.0);
            Assert.Equal(0, (window.End.At - same.Time.End).TotalMinutes, 3.0);
        }
    }

    [Fact]
    public void A_season_refuses_a_picture_that_its_table_does_not_tell()
    {
        var refused = Assert.Throws<BadInputException>(() => Forecaster.Season(Plan with { Picture = PictureKind.Twilight }, Valley.Grid, Plan.Date!.Value, Plan.Date.Value, cancel: TestContext.Current.CancellationToken));
        var fault = Assert.Single(refused.Faults);
        Assert.Equal("picture", fault.Field);
        Assert.Contains("litRidge", fault.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"litTips\"", PictureKind.LitTips)]
    [InlineData("\"moonlitRidge\"", PictureKind.MoonlitRidge)]
    [InlineData("null", PictureKind.LitRidgeOverDarkGround)]
    public void The_kind_is_read_from_the_plan(string json, PictureKind kind) =>
        Assert.Equal(kind, Read($$"""{ "span": { "fromDeg": 350, "toDeg": 20 }, "picture": {{json}} }""").Picture);

    [Fact]
    public void A_kind_that_there_is_not_is_refused_with_those_that_there_are()
    {
        var refused = Assert.Throws<BadInputException>(() => Read("""{ "span": { "fromDeg": 350, "toDeg": 20 }, "picture": "sunset" }"""));
        var fault = Assert.Single(refused.Faults);
        Assert.Equal("picture", fault.Field);
        Assert.All(Enum.GetValues<PictureKind>(), kind => Assert.Contains(kind.ToString(), fault.Message, StringComparison.OrdinalIgnoreCase));
    }

    private static Plan Read(string json)
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(json));
        return PlanReader.Read(stream, PlanNeeds.Nothing);
    }

    private static (Instant, Instant) SpanOf(LightWindow window) => (window.Start.At, window.End.At);
}
