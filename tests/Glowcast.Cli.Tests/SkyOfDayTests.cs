namespace Glowcast.Cli.Tests;

public class SkyOfDayTests(MadeValley valley) : IClassFixture<MadeValley>
{
    [Fact]
    public async Task A_forecast_tells_of_the_moon_and_of_the_earths_shadow_over_the_span()
    {
        var plan = valley.Write("moonlit.json", MadeValley.PlanWith(("date", "2026-04-02"), ("span.fromDeg", 240)).ToJsonString());
        var sky = (await Outcome.Of("forecast", "--plan", plan, "--json")).Json.GetProperty("sky");

        // Full moon on 2026-04-02 at 02:12 UT (almanac value from memory): it sets in the west about sunrise, within the span.
        var moon = sky.GetProperty("moon");
        Assert.InRange(moon.GetProperty("illuminatedFraction").GetDouble(), 0.99, 1);
        Assert.InRange(moon.GetProperty("greatestLux").GetDouble(), 0.05, 0.4);
        Assert.Equal(0, moon.GetProperty("inSpan").GetArrayLength() % 2);
        Assert.NotEmpty(moon.GetProperty("inSpan").EnumerateArray());

        // AMS Glossary, dark segment: it always reaches higher than the sun is deep.
        var shadows = sky.GetProperty("earthShadow").EnumerateArray().ToList();
        Assert.NotEmpty(shadows);
        Assert.All(shadows, shadow =>
        {
            Assert.True(shadow.GetProperty("topDeg").GetDouble() > -shadow.GetProperty("sunDeg").GetDouble());
            Assert.InRange(shadow.GetProperty("bearingDeg").GetDouble(), 240, 280);
        });
    }
}
