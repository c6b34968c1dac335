using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>The beam towards the sun against closed-form geometry on a sphere of 6371 km.</summary>
public class SunwardBeamTests
{
    private const double RadiusKm = SightModel.EarthRadiusM / 1000;

    [Theory]
    // R (sec δ − 1): how high a level ray runs over the ground after an arc δ, without air.
    [InlineData(0.25)]
    [InlineData(1)]
    [InlineData(4)]
    public void A_level_ray_rises_over_the_sphere_as_the_secant(double arcDeg)
    {
        var beam = new SunwardBeam(Length.Zero, Angle.Zero, 0);
        var arc = Angle.FromDegrees(arcDeg);
        Assert.Equal(RadiusKm * ((1 / arc.Cos()) - 1), beam.HeightAt(Length.FromKilometres(RadiusKm * arc.Radians)).Kilometres, 1e-6);
    }

    [Theory]
    [InlineData(1000, 0)]
    [InlineData(3000, 0)]
    [InlineData(3000, 0.13)]
    public void A_beam_that_grazes_the_sea_does_so_at_the_distance_of_its_horizon(double ridgeM, double k)
    {
        // cos dip = R′/(R′ + H) and the tangent point lies R′ · dip away: 3.57 √H km without air, 1.07 times as far for k = 0.13.
        var flatterM = SightModel.EarthRadiusM / (1 - k);
        var dipRad = Math.Acos(flatterM / (flatterM + ridgeM));
        var beam = new SunwardBeam(Length.FromMetres(ridgeM), Angle.FromRadians(-dipRad), k);
        Assert.Equal(0, beam.Lowest.Metres, 1e-6);
        Assert.Equal(0, beam.HeightAt(Length.FromMetres(flatterM * dipRad)).Metres, 1e-3);
        Assert.Equal(3.57 * Math.Sqrt(ridgeM) * Math.Sqrt(1 / (1 - k)), flatterM * dipRad / 1000, 0.2);
    }

    [Fact]
    public void A_level_beam_meets_high_cloud_far_out()
    {
        // From 2000 m the level ray is at 8 km where R′ (sec δ − 1) (1 + H/R′) = 6000 m: cos δ = (R′ + 2000)/(R′ + 8000).
        var flatterM = SightModel.EarthRadiusM / (1 - 0.13);
        var expectedM = flatterM * Math.Acos((flatterM + 2000) / (flatterM + 8000));
        var through = Beam(2000, 0).Through(new CloudLayer(CloudLevel.High, 1, Length.FromMetres(8000), Length.FromMetres(9000)))!.Value;
        Assert.Equal(expectedM, through.Near.Metres, 1e-3);
        Assert.Equal(296, through.Near.Kilometres, 1.0);
        Assert.True(through.Far > through.Near);
    }

    [Fact]
    public void Where_the_beam_enters_and_leaves_a_layer_it_has_the_layers_heights()
    {
        var layer = new CloudLayer(CloudLevel.Low, 1, Length.FromMetres(600), Length.FromMetres(1100));
        var sinking = Beam(2500, -1.2);
        var through = sinking.Through(layer)!.Value;
        Assert.Equal(1100, sinking.HeightAt(through.Near).Metres, 1e-3);
        Assert.Equal(1100, sinking.HeightAt(through.Far).Metres, 1e-3);
        Assert.True(sinking.Lowest < layer.Top);

        var rising = Beam(400, 0.5);
        through = rising.Through(layer)!.Value;
        Assert.Equal(600, rising.HeightAt(through.Near).Metres, 1e-3);
        Assert.Equal(1100, rising.HeightAt(through.Far).Metres, 1e-3);
    }

    [Fact]
    public void A_layer_below_the_whole_beam_is_not_met()
    {
        var layer = new CloudLayer(CloudLevel.Low, 1, Length.FromMetres(600), Length.FromMetres(1100));
        Assert.Null(Beam(2500, 0).Through(layer));
        Assert.Null(Beam(2500, -1.0).Through(layer));
    }

    [Fact]
    public void A_ridge_within_the_layer_meets_it_at_once() =>
        Assert.Equal(Length.Zero, Beam(900, 2).Through(new CloudLayer(CloudLevel.Low, 1, Length.FromMetres(600), Length.FromMetres(1100)))!.Value.Near);

    private static SunwardBeam Beam(double ridgeM, double altitudeDeg) => new(Length.FromMetres(ridgeM), Angle.FromDegrees(altitudeDeg), SightModel.UsualRefractionK);
}
