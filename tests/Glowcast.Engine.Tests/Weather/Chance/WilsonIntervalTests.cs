using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Weather;

public class WilsonIntervalTests
{
    /// <summary>Bins of ../shared/reference/weather/calibration, worked out by an independent program.</summary>
    [Fact]
    public void Intervals_are_those_of_the_table()
    {
        using var expected = ReferenceData.Json("weather/calibration/expected.json");
        foreach (var bin in expected.RootElement.GetProperty("bins").EnumerateArray())
        {
            var interval = WilsonInterval.Of(bin.GetProperty("happened").GetInt32(), bin.GetProperty("n").GetInt32());
            Assert.Equal(bin.GetProperty("share").GetDouble(), interval.Share, 1e-6);
            Assert.Equal(bin.GetProperty("wilson95")[0].GetDouble(), interval.Low, 1e-6);
            Assert.Equal(bin.GetProperty("wilson95")[1].GetDouble(), interval.High, 1e-6);
        }
    }

    [Theory]
    [InlineData(0, 0, 0, 1)]
    [InlineData(0, 10, 0, 0.2775)]
    [InlineData(10, 10, 0.7225, 1)]
    public void Without_cases_or_at_the_ends_it_stays_within_0_and_1(int happened, int cases, double low, double high)
    {
        var interval = WilsonInterval.Of(happened, cases);
        Assert.Equal(low, interval.Low, 1e-4);
        Assert.Equal(high, interval.High, 1e-4);
    }
}
