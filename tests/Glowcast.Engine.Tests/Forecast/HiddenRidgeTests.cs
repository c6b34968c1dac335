using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Tests.Light;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>What the air hides, it hides from forecast and season alike.</summary>
public class HiddenRidgeTests
{
    private static readonly Plan Plan = ValleyLight.Plan with { Date = new LocalDate(2026, 10, 20), Thresholds = LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(8) } };

    // The ridge lies some 13 to 16 km off.
    [Theory]
    [InlineData(250, true)]
    [InlineData(80, true)]
    [InlineData(4, false)]
    [InlineData(1, false)]
    public void A_ridge_that_haze_hides_fits_neither_in_the_forecast_nor_in_the_season(double visibilityKm, bool isSeen)
    {
        var plan = Plan with { Conditions = Plan.Conditions with { Visibility = Length.FromKilometres(visibilityKm) } };
        var fit = Forecaster.Forecast(plan, Valley.Grid, cancel: TestContext.Current.CancellationToken).Fit!;
        var day = Assert.Single(Forecaster.Season(plan, Valley.Grid, plan.Date!.Value, plan.Date.Value, cancel: TestContext.Current.CancellationToken));
        var season = day.Windows.Max(window => window.Fit!.Chance);
        Assert.Equal(isSeen, fit.IsRidgeSeen);
        Assert.Equal(!isSeen, fit.Reasons.Any(reason => reason.Code == FitReasonCode.RidgeNotSeen));
        Assert.Equal((isSeen, isSeen), (fit.Chance > 0, season > 0));
        if (!isSeen) Assert.All(day.Windows, window => Assert.Equal(Verdict.TooLong, window.Fit!.Verdict));
    }
}
