using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Weather;

public class ReportedVisibilityTests
{
    [Theory]
    // ICAO Annex 3 and the US surface-observing handbook FMH-1: metres in four figures, statute miles of 1609.344 m.
    [InlineData("4000", 4000, VisibilityBound.Measured)]
    [InlineData("0800", 800, VisibilityBound.Measured)]
    [InlineData("2500NE", 2500, VisibilityBound.Measured)]
    [InlineData("7000NDV", 7000, VisibilityBound.Measured)]
    [InlineData("1 1/2SM", 2414.016, VisibilityBound.Measured)]
    [InlineData("3/4SM", 1207.008, VisibilityBound.Measured)]
    [InlineData("5SM", 8046.72, VisibilityBound.Measured)]
    [InlineData("9999", 10_000, VisibilityBound.AtLeast)]
    [InlineData("CAVOK", 10_000, VisibilityBound.AtLeast)]
    [InlineData("10SM", 16_093.44, VisibilityBound.AtLeast)]
    [InlineData("P6SM", 9656.064, VisibilityBound.AtLeast)]
    [InlineData("M1/4SM", 402.336, VisibilityBound.LessThan)]
    [InlineData("0000", 50, VisibilityBound.LessThan)]
    public void A_group_of_an_airfields_report_is_read(string group, double metres, VisibilityBound bound)
    {
        var read = ReportedVisibility.Read(group, "visibility");
        Assert.Equal(metres, read.Range.Metres, 1e-9);
        Assert.Equal(bound, read.Bound);
        // 5 % of contrast against 2 %: ln 0.02 / ln 0.05.
        Assert.Equal(metres * Math.Log(0.02) / Math.Log(0.05), read.MeteorologicalRange.Metres, metres * 1e-3);
    }

    [Theory]
    [InlineData("80", 80)]
    [InlineData("40 km", 40)]
    [InlineData("12.5km", 12.5)]
    public void A_number_is_kilometres_and_taken_as_it_is(string text, double km)
    {
        var read = ReportedVisibility.Read(text, "visibility");
        Assert.Equal((km, VisibilityBound.Measured), (read.MeteorologicalRange.Kilometres, read.Bound));
    }

    [Theory]
    [InlineData("")]
    [InlineData("0")]
    [InlineData("-5")]
    [InlineData("1/0SM")]
    [InlineData("0SM")]
    [InlineData("12345")]
    [InlineData("4000 m and more")]
    [InlineData("NaN")]
    public void Anything_else_is_refused(string text) => Assert.Equal("visibility", Assert.Throws<BadInputException>(() => ReportedVisibility.Read(text, "visibility")).Faults.Single().Field);
}
