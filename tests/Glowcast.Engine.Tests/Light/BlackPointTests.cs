using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Light;

public class BlackPointTests
{
    // Sunlit snow against rock in shade: 8000 lux of beam and 1500 of sky, airlight 600 cd/m².
    private const double LitLux = 9500;
    private const double ShadedLux = 1500;
    private const double AirlightCd = 600;

    // Computed by an independent script from the same formula, to a tenth of a stop.
    [Theory]
    [InlineData(40, 10, 1.7)]
    [InlineData(40, 20, 0.7)]
    [InlineData(40, 40, 0.1)]
    [InlineData(40, 80, 0.0)]
    [InlineData(80, 10, 2.6)]
    [InlineData(80, 20, 1.7)]
    [InlineData(80, 40, 0.7)]
    [InlineData(80, 80, 0.1)]
    [InlineData(150, 10, 3.4)]
    [InlineData(150, 20, 2.6)]
    [InlineData(150, 40, 1.6)]
    [InlineData(150, 80, 0.6)]
    [InlineData(250, 10, 3.9)]
    [InlineData(250, 20, 3.2)]
    [InlineData(250, 40, 2.3)]
    [InlineData(250, 80, 1.3)]
    public void Snow_in_the_sun_and_rock_in_the_shade_draw_together_with_distance(double visibilityKm, double distanceKm, double stops)
    {
        var point = At(visibilityKm, distanceKm);
        Assert.Equal(5.1, point.BareStops, 0.05);
        Assert.Equal(stops, point.Stops, 0.051);
    }

    // The same script: the share that comes through, and how far under the airlight the darkest thing in sight can be.
    [Theory]
    [InlineData(80, 10, 0.61)]
    [InlineData(80, 40, 0.14)]
    [InlineData(150, 20, 0.59)]
    [InlineData(250, 80, 0.29)]
    public void Air_lets_through_what_the_visibility_says(double visibilityKm, double distanceKm, double share) =>
        Assert.Equal(share, new Airlight(Length.FromKilometres(visibilityKm), AirlightCd).Transmittance(Length.FromKilometres(distanceKm)), 0.005);

    [Theory]
    [InlineData(80, 5, 2.2)]
    [InlineData(80, 20, 0.7)]
    [InlineData(150, 40, 0.6)]
    [InlineData(250, 80, 0.5)]
    public void A_black_thing_is_lifted_towards_the_airlight(double visibilityKm, double distanceKm, double stopsUnder)
    {
        var air = new Airlight(Length.FromKilometres(visibilityKm), AirlightCd);
        Assert.Equal(stopsUnder, Math.Log2(AirlightCd / air.Seen(0, Length.FromKilometres(distanceKm))), 0.051);
    }

    [Fact]
    public void At_the_visibility_a_black_thing_keeps_two_percent_of_its_contrast()
    {
        var air = new Airlight(Length.FromKilometres(80), AirlightCd);
        Assert.Equal(0.02, 1 - (air.Seen(0, air.Visibility) / AirlightCd), 1e-4);
    }

    [Fact]
    public void The_distances_named_are_those_at_which_the_verdict_turns()
    {
        var point = At(150, 20);
        Assert.Equal(BlackPointVerdict.Weak, point.Verdict);
        Assert.Equal(BlackPoint.LeastStops, At(150, point.HasWithin!.Value.Kilometres).Stops, 9);
        Assert.Equal(BlackPoint.LeastWeakStops, At(150, point.WeakWithin!.Value.Kilometres).Stops, 9);
        Assert.Equal(BlackPointVerdict.Has, At(150, point.HasWithin.Value.Kilometres - 0.1).Verdict);
        Assert.Equal(BlackPointVerdict.None, At(150, point.WeakWithin.Value.Kilometres + 0.1).Verdict);
    }

    [Fact]
    public void Forest_in_the_sun_has_no_black_point_beside_snow_in_the_shade()
    {
        var point = BlackPoint.Of(LitLux, ShadedLux, new Reflectances(0.05, 0.8), new Airlight(Length.FromKilometres(250), AirlightCd), Length.FromKilometres(1));
        Assert.Equal(BlackPointVerdict.None, point.Verdict);
        Assert.True(point.Stops < 0);
        Assert.Null(point.HasWithin);
        Assert.Null(point.WeakWithin);
    }

    private static BlackPoint At(double visibilityKm, double distanceKm) => BlackPoint.Of(
        LitLux, ShadedLux, Reflectances.Usual, new Airlight(Length.FromKilometres(visibilityKm), AirlightCd), Length.FromKilometres(distanceKm));
}
