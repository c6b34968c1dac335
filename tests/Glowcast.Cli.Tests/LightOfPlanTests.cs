using System.Text.Json;

namespace Glowcast.Cli.Tests;

/// <summary>What light --plan says of a window, of a span without a valley, and of every minute and bearing.</summary>
public class LightOfPlanTests(MadeValley valley) : IClassFixture<MadeValley>
{
    [Fact]
    public async Task A_window_says_what_opens_and_closes_it_where_and_how_much_is_lit_from_start_to_end()
    {
        var light = (await Outcome.Of("light", "--plan", valley.Plan, "--json")).Json;

        var window = Assert.Single(light.GetProperty("windows").EnumerateArray());
        foreach (var name in (string[])["atStart", "atEnd"])
        {
            var edge = window.GetProperty(name);
            Assert.Equal("terrain", edge.GetProperty("horizon").GetString());
            Assert.InRange(edge.GetProperty("sunAzimuthDeg").GetDouble(), 80, 120);
            Assert.InRange(edge.GetProperty("horizonDistanceM").GetDouble(), 1000, 30_000);
            Assert.InRange(edge.GetProperty("litShare").GetDouble(), 0.9 - 1e-6, 1);
            Assert.InRange(edge.GetProperty("valleyShare").GetDouble(), 0, 0.2 + 0.02);
            // Either the horizon lets the sun in, or the beam grows strong enough: each has its own parts.
            Assert.True(((string[])["terrainS", "sightLineS", "refractionS"]).All(Has) || ((string[])["beamS", "facingS"]).All(Has));

            bool Has(string part) => edge.GetProperty(part).GetDouble() > 0;
        }
        Assert.InRange(window.GetProperty("litShare").GetDouble(), 0.9, 1);
        Assert.InRange(window.GetProperty("valleyShare").GetDouble(), 0, 0.2);
        Assert.InRange(window.GetProperty("gains").GetProperty("firstDeg").GetDouble(), 260, 280);
        // The crest stays lit past noon: how it loses its light is nothing of this window's.
        Assert.Equal(JsonValueKind.Null, window.GetProperty("loses").ValueKind);
        var assumed = light.GetProperty("assumed");
        Assert.Equal((0.9, 0.2, 0.9, 0.4, 0.5, 5), (
            Number("columnsLit"), Number("valleyLit"), Number("discShare"), Number("crestLit"), Number("crestBandDeg"), Number("ridgeFromKm")));
        Assert.Empty(light.GetProperty("warnings").EnumerateArray());

        double Number(string name) => assumed.GetProperty(name).GetDouble();
    }

    [Fact]
    public async Task The_page_says_the_same_in_words()
    {
        var page = await Outcome.Of("light", "--plan", valley.Plan);
        Assert.Matches(@"opened by +(the beam\s+grown\s+strong\s+enough\s+to\s+show,\s+over\s+)?terrain\s+on\s+\d+°,\s+\d+(\.\d)?\s+k?m", page.Out);
        Assert.Matches(@"closed by +(the beam [a-z ,]+\s+)?terrain\s+on", page.Out);
        Assert.Matches(@"light comes +(from the|on both sides)", page.Out);
        Assert.Matches(@"lit then +ridge \d+ % at its start", page.Out);
    }

    [Fact]
    public async Task A_span_without_a_valley_is_warned_of()
    {
        var plan = valley.Write("near.json", MadeValley.PlanWith(("span.ridgeFromKm", 0.01)).ToJsonString());
        var light = (await Outcome.Of("light", "--plan", plan, "--json")).Json;
        Assert.Contains("ridgeFromKm", Assert.Single(light.GetProperty("warnings").EnumerateArray()).GetString(), StringComparison.Ordinal);
        Assert.Contains("there is no valley to be in shade", string.Join(' ', (await Outcome.Of("light", "--plan", plan)).Lines), StringComparison.Ordinal);
    }

    // Ground that is all alike, dark rock or snow: log₂(0.8/0.1) = 3 stops apart, less what light in the air takes from that.
    [Fact]
    public async Task The_users_own_raster_of_surfaces_says_how_bright_the_ground_is()
    {
        var (dark, bright) = (await BrightestOver("0.1"), await BrightestOver("0.8"));
        Assert.True(dark < bright / 3, $"{dark} {bright}");

        async Task<double> BrightestOver(string reflectance)
        {
            valley.Write($"surfaces-{reflectance}.asc", $"ncols 2\nnrows 2\nxllcenter 7.4\nyllcenter 45.9\ncellsize 0.5\n{reflectance} {reflectance} {reflectance} {reflectance}\n");
            var plan = valley.Write($"on-{reflectance}.json", MadeValley.PlanWith(("conditions.surfaces", $"surfaces-{reflectance}.asc")).ToJsonString());
            return (await Outcome.Of("light", "--plan", plan, "--json")).Json.GetProperty("windows")[0].GetProperty("blackPoint").GetProperty("brightestCd").GetDouble();
        }
    }

    [Fact]
    public async Task A_raster_that_holds_no_reflectances_is_refused_under_its_field()
    {
        valley.Write("percent.asc", "ncols 2\nnrows 2\nxllcenter 7.4\nyllcenter 45.9\ncellsize 0.5\n80 80 80 15\n");
        var plan = valley.Write("percent.json", MadeValley.PlanWith(("conditions.surfaces", "percent.asc")).ToJsonString());
        var refused = await Outcome.Of("light", "--plan", plan);
        Assert.Equal(["conditions.surfaces"], refused.Faults);
        Assert.Contains("between 0 and 1", refused.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_chart_in_a_file_has_its_axes_and_a_value_for_every_minute_and_bearing()
    {
        var file = Path.Combine(valley.Folder, "chart.json");
        Assert.Equal(0, (await Outcome.Of("light", "--plan", valley.Plan, "--chart", file)).Exit);
        var chart = JsonDocument.Parse(await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken)).RootElement;

        var (minutes, columns) = (chart.GetProperty("minutes").GetProperty("count").GetInt32(), chart.GetProperty("columns").GetProperty("count").GetInt32());
        Assert.Equal(20.0, columns * chart.GetProperty("columns").GetProperty("stepDeg").GetDouble(), 1e-6);
        var layers = chart.GetProperty("layers").EnumerateArray().ToDictionary(layer => layer.GetProperty("name").GetString()!);
        Assert.Equal(["crestDisc", "crestLit", "crestLux", "ridgeDisc", "ridgeLit", "valleyDisc", "valleyLit"], layers.Keys.Order());
        foreach (var layer in layers.Values)
            Assert.Equal(minutes * columns * (layer.GetProperty("type").GetString() == "uint16" ? 2 : 1), layer.GetProperty("data").GetBytesFromBase64().Length);

        // Ground that counts as lit sees nine tenths of the disc, and lux are the beam's times the disc's share.
        var (disc, lit, lux) = (Data("crestDisc"), Data("crestLit"), Data("crestLux"));
        var beam = chart.GetProperty("byMinute").GetProperty("beamLux").EnumerateArray().Select(value => value.GetDouble()).ToList();
        for (var i = 0; i < lit.Length; i++)
        {
            if (lit[i] == 255) Assert.True(disc[i] >= 0.9 * 255, $"{disc[i]}");
            Assert.Equal(beam[i / columns] * disc[i] / 255, 4 * BitConverter.ToUInt16(lux, 2 * i), 2.001);
        }
        Assert.Contains((byte)255, lit);
        var phases = chart.GetProperty("byMinute").GetProperty("phases");
        Assert.True(phases[0].GetInt32() % 2 == 1, "the day begins with the afterglow's counterpart");
        Assert.Equal(0, phases[minutes / 2].GetInt32());

        byte[] Data(string name) => layers[name].GetProperty("data").GetBytesFromBase64();
    }

    [Fact]
    public async Task A_chart_belongs_to_a_plan() => Assert.Equal(
        ["--chart"], (await Outcome.Of("light", "--grid", valley.Grid, "--target", MadeValley.Crest, "--date", "2026-03-20", "--chart", "chart.json")).Faults);
}
