using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Sky;

public class EarthShadowTests
{
    private static readonly Azimuth West = Azimuth.FromDegrees(270);

    private static readonly Azimuth East = Azimuth.FromDegrees(90);

    // AMS Glossary, dark segment: its width above the antisolar point is always more than the sun is deep.
    [Theory]
    [InlineData(-1)]
    [InlineData(-2)]
    [InlineData(-3)]
    [InlineData(-4)]
    public void The_shadow_stands_higher_than_the_sun_is_deep(double sunDeg)
    {
        var shadow = EarthShadow.On(East, West, Angle.FromDegrees(sunDeg), Length.Zero)!;
        Assert.True(shadow.Top.Degrees > -sunDeg);
        Assert.True(shadow.AtLeast < shadow.Top && shadow.Top < shadow.AtMost);
    }

    // The edge in a plane through the sun: a sight line at elevation e, sun δ deep, leaves the shadow after R(1 − cos δ)/sin(e − δ).
    [Fact]
    public void Opposite_the_sun_the_edge_is_the_plane_one()
    {
        var top = EarthShadow.On(East, West, Angle.FromDegrees(-2), Length.Zero)!.Top.Radians;
        var depression = double.DegreesToRadians(2);
        var way = 6371 * (1 - Math.Cos(depression)) / Math.Sin(top - depression);
        Assert.Equal(25, (way * Math.Sin(top)) + (way * way / (2 * 6371)), 0.1);
    }

    [Fact]
    public void The_shadow_rises_faster_and_faster()
    {
        var tops = new[] { -1.0, -2, -3, -4 }.Select(deg => EarthShadow.On(East, West, Angle.FromDegrees(deg), Length.Zero)!.Top.Degrees).ToArray();
        Assert.True(tops[1] - tops[0] < tops[2] - tops[1] && tops[2] - tops[1] < tops[3] - tops[2]);
    }

    [Fact]
    public void It_is_highest_opposite_the_sun_and_lower_to_the_sides()
    {
        var sun = Angle.FromDegrees(-3);
        var (bearing, shadow) = EarthShadow.Over(BearingSpan.FromDegrees(60, 120), West, sun, Length.Zero)!.Value;
        Assert.Equal(90, bearing.Degrees, 9);
        Assert.True(EarthShadow.On(Azimuth.FromDegrees(120), West, sun, Length.Zero)!.Top < shadow.Top);
        Assert.Equal(120, EarthShadow.Over(BearingSpan.FromDegrees(120, 170), West, sun, Length.Zero)!.Value.Bearing.Degrees, 9);
    }

    [Theory]
    [InlineData(90, 1)]
    [InlineData(90, -8)]
    [InlineData(300, -3)]
    public void There_is_none_by_day_by_night_and_on_the_sun_s_side(double bearingDeg, double sunDeg) =>
        Assert.Null(EarthShadow.On(Azimuth.FromDegrees(bearingDeg), West, Angle.FromDegrees(sunDeg), Length.Zero));

    [Property]
    public Property Its_top_is_an_elevation_everywhere() =>
        Prop.ForAll(Skies.Altitudes(), Skies.Heights(), Gen.Choose(0, 359).ToArbitrary(), (altitudeRad, heightM, bearingDeg) =>
            EarthShadow.On(Azimuth.FromDegrees(bearingDeg), West, Angle.FromRadians(altitudeRad / 8), Length.FromMetres(heightM))
                is null or { AtLeast.Degrees: >= 0, Top.Degrees: >= 0 and <= 90.0001, AtMost.Degrees: <= 90.0001 });
}
