using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>The first light of a crest 3000 m high that looks down to its horizon, at an equinox sunrise.</summary>
public class SunwardPathTests
{
    private static readonly Place Crest = Place.FromDegrees(46, 7.5, 3000);

    // From the sun's centre at −1.4° as seen from the crest, to +2°.
    private static readonly LightWindow Window = Between(-1.4, 2);

    [Fact]
    public void High_cloud_lies_in_the_way_all_through_the_window()
    {
        var cut = Assert.Single(Cuts(new CloudLayer(CloudLevel.High, 0.5, Length.FromMetres(9000), Length.FromMetres(10_000))));
        Assert.Equal(Window.Length, cut.Cut);
        // The highest sun's beam meets the base nearest to the ridge: closed form of a straight ray over an earth of R/(1−k).
        Assert.Equal(Crossing(2, 9000), cut.Near.Kilometres, 0.1);
        Assert.Equal(Crossing(-1.4, 10_000), cut.Far.Kilometres, 0.1);
        Assert.Equal(91, cut.Towards.Degrees, 2.0);
        Assert.StartsWith($"Needs clear sky {cut.Near.Kilometres:0}–{cut.Far.Kilometres:0} km to the east", cut.Condition, StringComparison.Ordinal);
        Assert.Contains("50 % of the sky", cut.Condition, StringComparison.Ordinal);
    }

    [Fact]
    public void Low_cloud_far_out_costs_the_minutes_until_the_beam_clears_it()
    {
        var cut = Assert.Single(Cuts(new CloudLayer(CloudLevel.Low, 1, Length.FromMetres(800), Length.FromMetres(1000))));
        // The beam from 3000 m clears a top of 1000 m once the sun stands above −acos((R′ + 1000)/(R′ + 3000)) = −1.339°.
        var flatterM = SightModel.EarthRadiusM / (1 - SightModel.UsualRefractionK);
        var clearsAt = -double.RadiansToDegrees(Math.Acos((flatterM + 1000) / (flatterM + 3000)));
        Assert.Equal((When(clearsAt) - Window.Start.At).TotalSeconds, cut.Cut.TotalSeconds, 30.0);
    }

    [Fact]
    public void Cloud_well_below_the_beam_and_clear_sky_cost_nothing()
    {
        Assert.Empty(Cuts(new CloudLayer(CloudLevel.Low, 1, Length.FromMetres(-400), Length.FromMetres(-300))));
        Assert.Empty(Cuts(new CloudLayer(CloudLevel.High, 0, Length.FromMetres(9000), null)));
    }

    private static IReadOnlyList<SunwardCut> Cuts(CloudLayer layer) => SunwardPath.Cuts([layer], [Window], Crest, SightModel.Usual);

    private static double Crossing(double altitudeDeg, double heightM)
    {
        var flatterM = SightModel.EarthRadiusM / (1 - SightModel.UsualRefractionK);
        var altitudeRad = double.DegreesToRadians(altitudeDeg);
        return flatterM * (Math.Acos((flatterM + 3000) * Math.Cos(altitudeRad) / (flatterM + heightM)) - altitudeRad) / 1000;
    }

    private static LightWindow Between(double fromDeg, double toDeg) => new(
        Edge(When(fromDeg)), Edge(When(toDeg)), 1, 0, Azimuth.FromDegrees(91), Angle.Zero, Angle.FromDegrees(180), SunInSpan: false);

    private static WindowEdge Edge(Instant at) => new(at, WindowEdgeCause.RidgeLit, TimingUncertainty.None, null, 1, 0);

    private static Instant When(double apparentDeg) => Assert.Single(new TimeCurve(
        new Interval(Instant.FromUtc(2026, 3, 20, 4, 30), Instant.FromUtc(2026, 3, 20, 8, 0)), Duration.FromMinutes(10), Altitude).Crossings(apparentDeg)).At;

    private static double Altitude(Instant instant) =>
        Refraction.ToApparent(Sun.At(instant).SeenFrom(Crest).AirlessAltitude, Crest.Height).Degrees;
}
