using FsCheck.Xunit;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Tests.Sky;

[Properties(Arbitrary = [typeof(SkyArbitraries)])]
public class MoonLightTests
{
    private static readonly Length MeanDistance = Length.FromKilometres(384_400);

    // Another published route: Krisciunas & Schaefer, PASP 103 (1991) 1033, eqs. 3, 8 and 9, Allen's magnitudes outside the air and
    // 0.172 magnitudes of extinction. Foot-candles are 10.764 lux.
    [Theory]
    [InlineData(90, 10)]
    [InlineData(60, 0)]
    [InlineData(60, 30)]
    [InlineData(45, 60)]
    [InlineData(30, 90)]
    [InlineData(20, 45)]
    public void Moonlight_agrees_with_a_second_published_formula(double altitudeDeg, double phaseDeg)
    {
        var sinAltitude = Angle.FromDegrees(altitudeDeg).Sin();
        var aboveAirLux = 10.764 * Math.Pow(10, -0.4 * (3.84 + (0.026 * phaseDeg) + (4e-9 * Math.Pow(phaseDeg, 4))));
        var airMass = 1 / Math.Sqrt(1 - (0.96 * (1 - (sinAltitude * sinAltitude))));
        var expected = aboveAirLux * Math.Pow(10, -0.4 * 0.172 * airMass) * sinAltitude;

        var lux = MoonLight.HorizontalLux(Angle.FromDegrees(altitudeDeg), Angle.FromDegrees(phaseDeg), MeanDistance);
        Assert.InRange(Math.Abs(Math.Log2(lux / expected)), 0, MoonLight.UncertaintyStops);
    }

    [Fact]
    public void A_full_moon_overhead_gives_a_quarter_of_a_lux() =>
        Assert.Equal(0.27, MoonLight.HorizontalLux(Angle.FromDegrees(90), Angle.Zero, MeanDistance), 0.01);

    [Fact]
    public void A_near_moon_is_brighter_by_the_square_of_its_distance()
    {
        var near = MoonLight.HorizontalLux(Angle.FromDegrees(50), Angle.Zero, MeanDistance * 0.95);
        var mean = MoonLight.HorizontalLux(Angle.FromDegrees(50), Angle.Zero, MeanDistance);
        Assert.Equal(1 / (0.95 * 0.95), near / mean, 1e-4);
    }

    [Theory]
    [InlineData(20)]
    [InlineData(5)]
    public void The_branches_join_within_their_stated_error(double jointDeg)
    {
        var below = MoonLight.HorizontalLux(Angle.FromDegrees(jointDeg - 1e-6), Angle.Zero, MeanDistance);
        var above = MoonLight.HorizontalLux(Angle.FromDegrees(jointDeg + 1e-6), Angle.Zero, MeanDistance);
        Assert.InRange(Math.Abs(Math.Log10(above / below)), 0, 0.03);
    }

    [Property]
    public void Every_place_and_instant_has_a_moon(Place place, Instant at)
    {
        var moon = Moon.At(at);
        var seen = moon.SeenFrom(place);
        Assert.InRange(seen.Azimuth.Degrees, 0, Math.BitDecrement(360));
        Assert.InRange(seen.AirlessAltitude.Degrees, -90, 90);
        Assert.InRange(seen.Distance.Kilometres, 349_000, 413_500);
        Assert.InRange(moon.IlluminatedFraction, 0, 1);
        Assert.InRange(MoonLight.HorizontalLux(moon, place), 0, 0.4);
    }
}
