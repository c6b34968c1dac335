namespace Glowcast.Cli.Tests;

public class SkyCommandTests
{
    [Theory]
    [InlineData("-0.549351", "0", 0, 32.961)] // refraction.csv of the engine's tests: a ray trace through the standard atmosphere
    [InlineData("-0.429490", "0", 0.1, 31.769)]
    public async Task Refraction_is_that_of_the_reference(string airless, string height, double apparent, double arcminutes)
    {
        var sky = (await Outcome.Of("sky", "--altitude", airless, "--height", height, "--json")).Json;
        Assert.Equal(apparent, sky.GetProperty("apparentAltitudeDeg").GetDouble(), 0.0005);
        Assert.Equal(arcminutes, sky.GetProperty("refractionArcmin").GetDouble(), 0.03);
        Assert.Equal(apparent == 0 ? 38.1345 : 36.6, sky.GetProperty("airMass").GetDouble(), apparent == 0 ? 0.05 : 0.5);
    }

    [Fact]
    public async Task A_high_sun_is_white_and_a_sun_that_is_down_has_no_beam()
    {
        var high = (await Outcome.Of("sky", "--altitude", "60", "--json")).Json.GetProperty("beam");
        Assert.InRange(high.GetProperty("cctK").GetDouble(), 5000, 6000);
        // 128 klx outside the air, some 100 klx on the ground: handbook values.
        Assert.InRange(high.GetProperty("normalLux").GetDouble(), 80_000, 120_000);
        Assert.InRange(high.GetProperty("ev100").GetDouble(), 15, 16);

        var down = (await Outcome.Of("sky", "--altitude", "-5", "--json")).Json;
        Assert.Equal(0, down.GetProperty("beam").GetProperty("normalLux").GetDouble());
        Assert.Equal(System.Text.Json.JsonValueKind.Null, down.GetProperty("airMass").ValueKind);
        Assert.Contains("afterglow", down.GetProperty("phases").EnumerateArray().Select(phase => phase.GetString()));
    }

    [Fact]
    public async Task An_instant_has_the_moon_too_and_the_page_fits()
    {
        string[] line = ["sky", "--at", "2026-02-14T06:50:00-05:00", "--latitude", "44.27", "--longitude", "-71.3", "--height", "1900"];
        var sky = (await Outcome.Of([.. line, "--json"])).Json;
        // Twilight formula at sunrise: 0.85 stop a degree; the sun climbs about 10.5° an hour there then.
        Assert.Equal(0.85 * 10.5 / 60, sky.GetProperty("skyStopsPerMinute").GetDouble(), 0.01);
        var moon = sky.GetProperty("moon");
        // Three days before the new moon of 2026-02-17 (12:01 UT, almanac value from memory).
        Assert.InRange(moon.GetProperty("illuminatedFraction").GetDouble(), 0.06, 0.14);
        Assert.All((await Outcome.Of(line)).Lines, row => Assert.True(row.Length <= 80, row));
    }

    [Theory]
    [InlineData("--at,--altitude", "--at")]
    [InlineData("", "--at")]
    public async Task Either_an_instant_or_an_altitude(string options, string blamed)
    {
        var line = new List<string> { "sky", "--latitude", "46", "--longitude", "7" };
        if (options.Length > 0) line = ["sky", "--at", "2026-02-14T06:50:00Z", "--altitude", "3", "--latitude", "46", "--longitude", "7"];
        Assert.Contains(blamed, (await Outcome.Of([.. line])).Faults);
    }

    [Theory]
    [InlineData("--altitude", "91")]
    [InlineData("--altitude", "NaN")]
    [InlineData("--height", "20000")]
    [InlineData("--aerosol-beta", "-1")]
    [InlineData("--pressure", "900")]
    public async Task What_is_wrong_is_named(string option, string value)
    {
        string[] line = option == "--altitude" ? ["sky", option, value] : ["sky", "--altitude", "3", option, value];
        Assert.Equal(option == "--pressure" ? "--temperature" : option, Assert.Single((await Outcome.Of(line)).Faults));
    }
}
