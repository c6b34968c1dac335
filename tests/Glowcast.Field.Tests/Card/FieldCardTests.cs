using System.Text;
using System.Text.RegularExpressions;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Field.Card;
using NodaTime;

namespace Glowcast.Field.Tests.Card;

public partial class FieldCardTests
{
    private static readonly CardChoices Choices = new();

    [Fact]
    public void It_is_one_file_that_asks_nobody_for_anything_and_is_small()
    {
        var html = new FieldCard(Forecasts.ThatFits, Choices).Html();
        Assert.True(Encoding.UTF8.GetByteCount(html) < 600_000);
        Assert.All(Links().Matches(html).Select(link => link.Groups[1].Value), link => Assert.True(link.StartsWith("data:", StringComparison.Ordinal) || link.StartsWith('#'), link));
        Assert.DoesNotContain("<script", html, StringComparison.Ordinal);
        Assert.DoesNotContain("@import", html, StringComparison.Ordinal);
    }

    [Fact]
    public void It_says_when_to_be_where_what_to_turn_to_and_what_to_beware_of()
    {
        var (forecast, text) = (Forecasts.ThatFits, TextOf(Forecasts.ThatFits));
        var zone = forecast.Plan.Lookout!.Zone!;
        foreach (var at in new[] { forecast.Fit!.OnSiteBy, forecast.Fit.EarliestStart, forecast.Fit.RecommendedStart, forecast.Fit.LatestStart, forecast.BestWindow!.End.At, forecast.Fit.OnSiteBy - Duration.FromHours(1) })
            Assert.Contains(Time(at!.Value, zone), text, StringComparison.Ordinal);
        Assert.Contains($"{forecast.Set!.Layout.Across.Step.Degrees:0.00}°", text, StringComparison.Ordinal);
        Assert.Contains("hand before the lens", text, StringComparison.Ordinal);
        Assert.Contains("visibility 80 km", text, StringComparison.Ordinal);
        Assert.All(forecast.Cautions, caution => Assert.Contains(caution, text, StringComparison.Ordinal));
    }

    [Fact]
    public void Being_late_is_told_as_the_shifted_set_has_it()
    {
        var (forecast, text) = (Forecasts.ThatFits, TextOf(Forecasts.ThatFits));
        foreach (var late in new[] { 5, 10, 15 })
        {
            var shifted = ShiftedStart.Of(forecast, forecast.Start!.Value + Duration.FromMinutes(late))!;
            Assert.Contains($"{late} min {Time(shifted.Start, forecast.Plan.Lookout!.Zone!)} {shifted.InLight}/{shifted.Exposures}", text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Compass_bearings_are_the_true_ones_less_the_declination_which_may_be_given_by_hand()
    {
        var row = Forecasts.ThatFits.Set!.Clock.Exposures.Where(exposure => exposure.Set == 0).ToList();
        var first = Forecasts.ThatFits.Set.Layout.FrameAt(row[0].Row, row[0].Column).Bearing;
        var byHand = TextOf(Forecasts.ThatFits, Choices with { MagneticDeclination = Angle.FromDegrees(-12) });
        Assert.Contains($"first frame {first.Degrees:0.0}° {first.Degrees + 12:0.0}°", byHand, StringComparison.Ordinal);
        Assert.Contains("Declination 12.0° west, as given by hand", byHand, StringComparison.Ordinal);
        Assert.Matches("Declination [0-9.]+° east ± 0\\.[0-9]° on 2026-10-20", TextOf(Forecasts.ThatFits));
    }

    [Fact]
    public void A_date_the_magnetic_model_does_not_hold_on_asks_for_the_declination()
    {
        var later = Forecasts.ThatFits with { Plan = Forecasts.ThatFits.Plan with { Date = new LocalDate(2031, 1, 1) } };
        Assert.Contains("by hand", Assert.Throws<BadInputException>(() => new FieldCard(later, Choices)).Message, StringComparison.Ordinal);
        Assert.NotNull(new FieldCard(later, Choices with { MagneticDeclination = Angle.Zero }));
    }

    [Fact]
    public void A_set_that_does_not_fit_says_where_it_breaks_and_what_helps()
    {
        var text = TextOf(Forecasts.TooLong);
        Assert.Contains("It does not fit", text, StringComparison.Ordinal);
        Assert.Contains("First to fail: frame", text, StringComparison.Ordinal);
        Assert.Contains(Forecasts.TooLong.Remedies[0].Change, text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_day_without_light_says_why_and_still_warns()
    {
        var text = TextOf(Forecasts.WithoutLight);
        Assert.Contains($"No light. {Forecasts.WithoutLight.WhyNone}", text, StringComparison.Ordinal);
        Assert.Contains(Cautions.Lens, text, StringComparison.Ordinal);
    }

    /// <summary>The words of a card, parted by single blanks.</summary>
    private static string TextOf(LightForecast forecast, CardChoices? choices = null) =>
        Blanks().Replace(System.Net.WebUtility.HtmlDecode(Tags().Replace(new FieldCard(forecast, choices ?? Choices).Html(), " ")), " ");

    private static string Time(Instant instant, DateTimeZone zone) =>
        NodaTime.Text.LocalTimePattern.CreateWithInvariantCulture("HH:mm:ss").Format(Rounded.ToSeconds(instant).InZone(zone).TimeOfDay);

    [GeneratedRegex("(?:src|href|url)(?:=\"|\\()([^\")]*)")]
    private static partial Regex Links();

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tags();

    [GeneratedRegex("\\s+")]
    private static partial Regex Blanks();
}
