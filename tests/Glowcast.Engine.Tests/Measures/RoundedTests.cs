using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Tests.Measures;

public class RoundedTests
{
    private static readonly Instant Whole = Instant.FromUtc(2026, 10, 24, 9, 52, 47);

    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(49, 0, 0)]
    [InlineData(50, 100, 0)]
    [InlineData(449, 400, 0)]
    // Nearer to :47, but its tenth is half-way to :48.
    [InlineData(450, 500, 1000)]
    [InlineData(500, 500, 1000)]
    [InlineData(950, 1000, 1000)]
    public void Seconds_are_those_of_the_tenth(int afterMs, int tenthMs, int secondMs)
    {
        var instant = Whole + Duration.FromMilliseconds(afterMs);
        Assert.Equal(Whole + Duration.FromMilliseconds(tenthMs), Rounded.ToTenths(instant));
        Assert.Equal(Whole + Duration.FromMilliseconds(secondMs), Rounded.ToSeconds(instant));
    }

    [Fact]
    public void Before_1970_a_half_goes_to_the_later_one_too()
    {
        var before = Instant.FromUtc(1960, 1, 1, 0, 0);
        Assert.Equal(before, Rounded.ToTenths(before - Duration.FromMilliseconds(50)));
        Assert.Equal(before - Duration.FromMilliseconds(100), Rounded.ToTenths(before - Duration.FromMilliseconds(51)));
        Assert.Equal(before, Rounded.ToSeconds(before - Duration.FromMilliseconds(500)));
    }
}
