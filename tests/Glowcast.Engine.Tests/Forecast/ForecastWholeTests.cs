using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Tests.Light;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>What a forecast says besides windows and frames.</summary>
public class ForecastWholeTests
{
    [Fact]
    public void A_forecast_holds_the_brightness_of_its_windows_and_when_to_be_on_site()
    {
        var forecast = Forecaster.Forecast(ValleyLight.Plan, Valley.Grid, cancel: TestContext.Current.CancellationToken);
        var (fit, window) = (forecast.Fit!, forecast.Windows[0]);
        var light = WindowBrightness.Of(forecast.Brightness!, window);

        // A morning: it brightens, and the beam whitens.
        Assert.True(light.Rate.Total > 0 && light.Start.Rate.Direct > light.End.Rate.Direct, light.ToString());
        Assert.True(light.End.Light.DirectColour.X < light.Start.Light.DirectColour.X);
        Assert.Equal(light.Rate.Total * window.Length.TotalMinutes, Math.Log2(light.End.Light.TotalLux / light.Start.Light.TotalLux), 1e-9);
        Assert.InRange(fit.RecommendedStart!.Value, fit.EarliestStart!.Value, fit.LatestStart!.Value);
        Assert.True(fit.OnSiteBy < fit.RecommendedStart);
        Assert.Null(forecast.WhyNothingFits);
    }

    [Fact]
    public void Without_light_nothing_fits_for_the_reason_that_there_is_no_window()
    {
        var plan = ValleyLight.Plan with { Thresholds = ValleyLight.Plan.Thresholds with { RidgeFrom = Length.FromKilometres(60) } };
        var forecast = Forecaster.Forecast(plan, Valley.Grid, cancel: TestContext.Current.CancellationToken);
        Assert.Equal(Verdict.NoLight, forecast.Fit!.Verdict);
        Assert.NotNull(forecast.WhyNone);
        Assert.Equal(forecast.WhyNone, forecast.WhyNothingFits);
    }

    [Fact]
    public void Air_that_no_weather_makes_is_refused_with_what_is_usual_there()
    {
        var plan = ValleyLight.Plan with { Conditions = new Conditions { Air = new Air(1100, -40) } };
        var refusal = Assert.Throws<BadInputException>(() => Forecaster.Forecast(plan, Valley.Grid, cancel: TestContext.Current.CancellationToken));
        Assert.Equal("conditions.pressureHPa", Assert.Single(refusal.Faults).Field);
        Assert.Contains("856 hPa are usual", refusal.Message, StringComparison.Ordinal);
    }
}
