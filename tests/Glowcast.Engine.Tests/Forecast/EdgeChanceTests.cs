using FsCheck.Xunit;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>Chance that a set lies between two uncertain edges, against a million draws and a table (Reference/picture/edge_chance.csv).</summary>
public class EdgeChanceTests
{
    private static readonly Instant Zero = Instant.FromUtc(2026, 2, 14, 6, 0);

    [Fact]
    public void The_chance_is_that_of_the_table_and_near_what_a_million_draws_found()
    {
        foreach (var row in ReferenceData.Rows("picture/edge_chance.csv"))
        {
            var edges = new EdgeChance(
                Zero + S(row, "open_mean_s"), S(row, "open_sd_s"), Zero + S(row, "close_mean_s"), S(row, "close_sd_s"), row.Number("correlation"));
            var fits = edges.Fits(Zero + S(row, "start_s"), S(row, "set_s"));
            Assert.Equal(row.Number("p_fits_bivariate"), fits, 1e-4);
            Assert.Equal(row.Number("monte_carlo_1e6"), fits, 0.003);
            Assert.Equal(row.Number("p_window_longer_than_set"), edges.IsLongEnough(S(row, "set_s")), 1e-4);
        }
    }

    [Fact]
    public void Certain_edges_allow_a_set_that_fits_to_the_second_and_none_that_is_longer()
    {
        var edges = new EdgeChance(Zero, Duration.Zero, Zero + Duration.FromSeconds(100), Duration.Zero, 0);
        Assert.Equal(1, edges.Fits(Zero, Duration.FromSeconds(100)));
        Assert.Equal(0, edges.Fits(Zero, Duration.FromSeconds(100.5)));
        Assert.Equal(1, edges.IsLongEnough(Duration.FromSeconds(100)));
    }

    // A horizon lets the sun in, and the beam may yet be too weak: over the ridge light is then late, over the valley shade lasts longer, which harms nothing. Where the beam itself decides it errs both ways.
    [Theory]
    [InlineData(true, false, 300)]
    [InlineData(false, false, 0)]
    [InlineData(true, true, 300)]
    [InlineData(false, true, 300)]
    public void A_beam_that_may_be_too_weak_counts_where_it_can_harm(bool isRidge, bool byBeam, double beamS)
    {
        var confidence = new EdgeConfidence(new TimingUncertainty(30, 10, 40) { BeamS = 300, IsByBeam = byBeam }, null, null);
        var doubt = EdgeDoubt.Of(confidence, isRidge);
        Assert.Equal((beamS, 10.0, 40.0, 30.0), (doubt.BeamS, doubt.SightLineS, doubt.RefractionS, doubt.OwnS));
    }

    // The moments of a normal variable cut off at nothing: Greene, Econometric Analysis, the censored normal; at the middle √(1/2 − 1/2π).
    [Theory]
    [InlineData(0, 0.58381)]
    [InlineData(-6, 1)]
    [InlineData(1, 0.26139)]
    [InlineData(5, 0)]
    public void What_is_wanting_of_the_beam_is_a_normal_error_cut_off_at_nothing(double spare, double deviation) =>
        Assert.Equal(deviation, BeamDoubt.CutOffDeviation(spare), 5e-4);

    // Sheppard 1899: a quarter plus the angle of the correlation over a circle.
    [Theory]
    [InlineData(-1)]
    [InlineData(-0.999)]
    [InlineData(-0.5)]
    [InlineData(0)]
    [InlineData(0.3)]
    [InlineData(0.9999)]
    [InlineData(1)]
    public void Both_below_their_mean_is_a_quarter_and_the_angle_of_the_correlation(double correlation) =>
        Assert.Equal(0.25 + (Math.Asin(correlation) / Math.Tau), BivariateNormal.Below(0, 0, correlation), 1e-7);

    [Property]
    public void It_is_even_in_its_two_and_lies_between_what_each_allows(int first, int second, int third)
    {
        var (a, b, r) = (first % 40 / 10.0, second % 40 / 10.0, third % 100 / 100.0);
        var both = BivariateNormal.Below(a, b, r);
        Assert.Equal(both, BivariateNormal.Below(b, a, r), 1e-9);
        Assert.InRange(both, 0, Math.Min(Alone(a), Alone(b)) + 1e-9);
        // The first below, whatever the second does.
        Assert.Equal(Alone(a), both + BivariateNormal.Below(a, -b, -r), 1e-8);

        static double Alone(double limit) => BivariateNormal.Below(limit, double.PositiveInfinity, 0);
    }

    [Fact]
    public void What_is_no_correlation_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => BivariateNormal.Below(0, 0, 1.1));

    private static Duration S(ReferenceRow row, string name) => Duration.FromSeconds(row.Number(name));
}
