using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>Scenes simple enough to be worked out by hand.</summary>
public class ClosedFormTests
{
    private const double K = 0.13;
    private const double Radius = 6_371_000;

    private static readonly GeoPoint Middle = GeoPoint.FromDegrees(46.5, 7.5);

    [Theory]
    [InlineData(0)]
    [InlineData(37)]
    [InlineData(90)]
    [InlineData(211.3)]
    public void A_plain_on_a_curved_earth_ends_at_its_dip(double azimuthDeg)
    {
        // Plain at 100 m, eye 200 m above it: tangent point √(2Rh/(1−k)), dip √(2h(1−k)/R).
        var sights = Sights((_, _) => 100, SightModel.Usual with { BeyondGrid = null });
        var horizon = sights.HorizonOf(new Place(Middle, Length.FromMetres(300)), Azimuth.FromDegrees(azimuthDeg));

        var dip = double.RadiansToDegrees(Math.Sqrt(2 * 200 * (1 - K) / Radius));
        var tangentM = Math.Sqrt(2 * Radius * 200 / (1 - K));
        // Along parallels the grid ends before the tangent point; there the plain's last post is the horizon.
        var seenM = Math.Min(tangentM, horizon.GridEdge?.Metres ?? double.PositiveInfinity);
        var expected = seenM >= tangentM ? -dip : double.RadiansToDegrees(Math.Atan(-200 / seenM) - (seenM * (1 - K) / (2 * Radius)));
        Assert.Equal(expected, horizon.Altitude!.Value.Degrees, 0.0001);
        Assert.Equal(seenM, horizon.Distance!.Value.Metres, 0.01 * seenM);
    }

    [Fact]
    public void Past_the_edge_a_smooth_sea_lies_at_its_dip()
    {
        var sights = Sights((_, _) => -5, SightModel.Usual with { BeyondGrid = Length.Zero });
        var horizon = sights.HorizonOf(new Place(Middle, Length.FromMetres(3000)), Azimuth.FromDegrees(90));

        Assert.True(horizon.IsBeyondGrid);
        Assert.Equal(-double.RadiansToDegrees(Math.Sqrt(2 * 3000 * (1 - K) / Radius)), horizon.Altitude!.Value.Degrees, 0.0001);
        Assert.True(horizon.BeyondCouldMatter);
    }

    [Theory]
    [InlineData(5_000, 400)]
    [InlineData(20_000, 1500)]
    [InlineData(35_000, 900)]
    public void A_wall_across_the_view_stands_at_its_angle(double distanceM, double heightM)
    {
        // A wall along a parallel to the north, one row of posts high; its crest is that row.
        var metresPerDegree = Wgs84.MeridianRadiusM(Math.Sin(double.DegreesToRadians(46.6))) * Math.PI / 180;
        var wallRow = (int)Math.Round((47 - 46.5 - (distanceM / metresPerDegree)) * 1200);
        var sights = Sights((row, _) => row == wallRow ? heightM : 0, SightModel.Usual with { BeyondGrid = null });
        var eye = new Place(Middle, Length.FromMetres(2));
        var crest = GeoPoint.FromDegrees(47 - (wallRow / 1200.0), 7.5);
        var d = Geodesic.Between(Middle, crest).Distance.Metres;

        var horizon = sights.HorizonOf(eye, Azimuth.FromDegrees(0));

        var expected = Math.Atan((heightM - 2) / d) - (d * (1 - K) / (2 * Radius));
        Assert.Equal(double.RadiansToDegrees(expected), horizon.Altitude!.Value.Degrees, 1e-6);
        Assert.Equal(d, horizon.Distance!.Value.Metres, 0.01);
        Assert.True(sights.SightTo(eye, crest)!.Value.IsVisible);
        Assert.False(sights.SightTo(eye, GeoPoint.FromDegrees(46.95, 7.5))!.Value.IsVisible && distanceM < 40_000);
    }

    [Theory]
    [InlineData(20)]
    [InlineData(143.7)]
    [InlineData(270)]
    public void A_cone_on_a_plain_stands_at_the_angle_of_its_tip(double bearingDeg)
    {
        // A cone of slope 1 in 2, its tip on a post 12 to 14 km away.
        var (sinB, cosB) = Math.SinCos(double.DegreesToRadians(bearingDeg));
        var tipRow = 600 - (int)(130 * cosB);
        var tipColumn = 600 + (int)(180 * sinB);
        var tip = GeoPoint.FromDegrees(47 - (tipRow / 1200.0), 7 + (tipColumn / 1200.0));
        var (metresNorth, metresEast) = (92.6, 92.6 * Math.Cos(double.DegreesToRadians(46.5)));
        var sights = Sights(
            (row, column) => Math.Max(0, 2000 - (0.5 * double.Hypot((row - tipRow) * metresNorth, (column - tipColumn) * metresEast))),
            SightModel.Usual with { BeyondGrid = null });
        var line = Geodesic.Between(Middle, tip);

        var horizon = sights.HorizonOf(new Place(Middle, Length.FromMetres(1.7)), line.Bearing);

        var d = line.Distance.Metres;
        var expected = Math.Atan((2000 - 1.7) / d) - (d * (1 - K) / (2 * Radius));
        Assert.Equal(double.RadiansToDegrees(expected), horizon.Altitude!.Value.Degrees, 0.0001);
        Assert.Equal(d, horizon.Distance!.Value.Metres, 1);
    }

    [Fact]
    public void A_hole_stands_in_nobodys_way_and_has_no_height()
    {
        // The wall of the test above, with a gap without data in the middle of it.
        var sights = Sights((row, column) => row == 300 ? (column is > 590 and < 610 ? double.NaN : 1000) : 0, SightModel.Usual with { BeyondGrid = null });
        var eye = new Place(Middle, Length.FromMetres(2));

        Assert.True(sights.HorizonOf(eye, Azimuth.FromDegrees(0)).Altitude!.Value < Angle.Zero);
        Assert.True(sights.HorizonOf(eye, Azimuth.FromDegrees(5)).Altitude!.Value > Angle.FromDegrees(1));
        Assert.Null(sights.Grid.HeightAt(GeoPoint.FromDegrees(46.75, 7.5)));
        Assert.Null(sights.SightTo(eye, GeoPoint.FromDegrees(46.75, 7.5)));
        Assert.Equal(19, sights.Grid.Relief.Holes);
    }

    private static SightLines Sights(Func<int, int, double> height, SightModel model) => new(Grids.Square(46, 7, height), model);
}
