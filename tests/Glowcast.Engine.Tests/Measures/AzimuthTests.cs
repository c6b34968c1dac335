using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Measures;

public class AzimuthTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(360, 0)]
    [InlineData(-1, 359)]
    [InlineData(725, 5)]
    [InlineData(-1e-17, 0)]
    [InlineData(180, 180)]
    [InlineData(-180, 180)]
    public void Bearings_wrap_at_north(double given, double expected) =>
        Assert.Equal(expected, Azimuth.FromDegrees(given).Degrees, 12);

    [Theory]
    [InlineData(350, 10, 20)]
    [InlineData(10, 350, -20)]
    [InlineData(0, 180, 180)]
    [InlineData(180, 0, 180)]
    public void The_shorter_turn_is_taken(double from, double to, double turn) =>
        Assert.Equal(turn, Azimuth.FromDegrees(from).TurnTo(Azimuth.FromDegrees(to)).Degrees, 9);

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Only_finite_bearings_exist(double given) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Azimuth.FromDegrees(given));
}

public class BearingSpanTests
{
    [Fact]
    public void A_span_may_cross_north()
    {
        var span = BearingSpan.FromDegrees(340, 20);
        Assert.Equal(40, span.Width.Degrees, 9);
        Assert.Equal(0, span.Centre.Degrees, 9);
        Assert.True(span.Contains(Azimuth.FromDegrees(340)));
        Assert.True(span.Contains(Azimuth.FromDegrees(20)));
        Assert.True(span.Contains(Azimuth.FromDegrees(5)));
        Assert.False(span.Contains(Azimuth.FromDegrees(21)));
        Assert.Equal(0.25, span.Share(Azimuth.FromDegrees(350)), 9);
    }

    [Fact]
    public void A_span_of_zero_cannot_be_made() => Assert.Throws<ArgumentException>(() => BearingSpan.FromDegrees(120, 120));
}
