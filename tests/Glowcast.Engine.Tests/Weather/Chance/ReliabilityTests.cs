using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>Forecast chances against what happened: 240 pairs worked up by an independent program (Reference/weather/calibration).</summary>
public class ReliabilityTests
{
    private static List<Outcome> Pairs() =>
        [.. ReferenceData.Rows("weather/calibration/pairs.csv").Select(row => new Outcome(row.Number("forecast_chance"), row.Flag("happened")))];

    [Fact]
    public void The_score_and_its_parts_are_those_of_the_table()
    {
        using var expected = ReferenceData.Json("weather/calibration/expected.json");
        var reliability = Reliability.Of(Pairs());
        Assert.Equal(expected.RootElement.GetProperty("n").GetInt32(), reliability.Cases);
        Same("base_rate", reliability.BaseRate);
        Same("brier", reliability.Brier);
        Same("reliability", reliability.Unreliable);
        Same("resolution", reliability.Resolution);
        Same("uncertainty", reliability.Uncertainty);
        Same("brier_skill_vs_base_rate", reliability.Skill!.Value);
        Same("log_score_nats", reliability.LogScore);
        Assert.Equal(expected.RootElement.GetProperty("bins").GetArrayLength(), reliability.Bins.Count);
        Assert.Equal(reliability.Brier, reliability.Unreliable - reliability.Resolution + reliability.Uncertainty, 1e-12);

        void Same(string name, double actual) => Assert.Equal(expected.RootElement.GetProperty(name).GetDouble(), actual, 1e-9);
    }

    [Fact]
    public void The_refit_is_that_of_the_table_and_betters_the_score()
    {
        using var expected = ReferenceData.Json("weather/calibration/expected.json");
        var table = expected.RootElement.GetProperty("logistic_recalibration");
        var refit = LogisticRefit.Of(Pairs())!;
        Assert.Equal(table.GetProperty("intercept").GetDouble(), refit.Intercept, 1e-6);
        Assert.Equal(table.GetProperty("slope").GetDouble(), refit.Slope, 1e-6);
        var after = Reliability.Of([.. Pairs().Select(pair => pair with { Chance = refit.Apply(pair.Chance) })]);
        Assert.Equal(table.GetProperty("brier_after").GetDouble(), after.Brier, 1e-6);
    }

    [Fact]
    public void Too_few_or_one_sided_outcomes_are_not_fitted()
    {
        Assert.Null(LogisticRefit.Of([.. Pairs().Take(29)]));
        Assert.Null(LogisticRefit.Of([.. Pairs().Select(pair => pair with { Happened = true })]));
        Assert.Null(LogisticRefit.Of([.. Pairs().Select(pair => pair with { Chance = 0.5 })]));
    }

    [Fact]
    public void A_class_moves_the_share_of_the_station()
    {
        Assert.True(DeckChances.Of(Likelihood.Unlikely) < DeckChances.Of(Likelihood.Low));
        Assert.True(DeckChances.Of(Likelihood.Moderate) < DeckChances.Of(Likelihood.High));
        Assert.True(DeckChances.Of(Likelihood.Moderate, 0.1) < DeckChances.Of(Likelihood.Moderate, 0.5));
        // Without flights the usual chance; with many, theirs.
        Assert.Equal(0.25, DeckChances.UsualOf(0, 0), 1e-12);
        Assert.Equal(0.6, DeckChances.UsualOf(60_000, 100_000), 1e-3);
    }
}
