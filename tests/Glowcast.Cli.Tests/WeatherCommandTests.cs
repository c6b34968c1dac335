using System.Text.Json;
using System.Text.Json.Nodes;

namespace Glowcast.Cli.Tests;

/// <summary>Files of weather models, against values of the engine's tests (tests/Glowcast.Engine.Tests/Reference/weather).</summary>
public class WeatherCommandTests
{
    private static string File(string path) => Path.Combine(Checkout.Root, "tests", "Glowcast.Engine.Tests", "Reference", "weather", path);

    [Fact]
    public async Task Info_lists_fields_with_their_headers()
    {
        var answer = (await Outcome.Of("weather", "info", File("grib/header_variants.grib2"), "--json")).Json;
        Assert.Equal(26, answer.GetProperty("messages").GetArrayLength());
        var mean = answer.GetProperty("messages").EnumerateArray().Single(message => message.GetProperty("message").GetInt32() == 20);
        Assert.Equal(6, mean.GetProperty("startHours").GetDouble());
        Assert.Equal(12, mean.GetProperty("endHours").GetDouble());
        Assert.Equal("2026-01-31T18:00:00Z", mean.GetProperty("reference").GetString());
        Assert.Equal(2, answer.GetProperty("messages")[25].GetProperty("missing").GetInt32());
        foreach (var name in (string[])["file", "submessage", "discipline", "category", "number", "name", "units", "levelType", "level", "grid", "packing", "ni", "nj"])
            Assert.True(mean.TryGetProperty(name, out _), name);
    }

    [Fact]
    public async Task A_damaged_file_is_bad_input_and_damage_beside_a_good_message_is_told()
    {
        Assert.NotEmpty((await Outcome.Of("weather", "info", File("broken/09_ccsds_stream_cut.grib2"))).Faults);
        var partial = await Outcome.Of("weather", "info", File("broken/12_second_message_bad.grib2"), "--json");
        Assert.Equal(1, partial.Json.GetProperty("messages").GetArrayLength());
        Assert.Contains("cut off", partial.Json.GetProperty("refused")[0].GetProperty("reason").GetString(), StringComparison.Ordinal);
        Assert.Contains("Message 2", partial.Error, StringComparison.Ordinal);
    }

    /// <summary>Packing/expected.csv, k = 1: 48 N, 4.4 E.</summary>
    [Fact]
    public async Task Value_is_that_of_the_point_and_missing_is_null()
    {
        string[] at = ["--message", "1", "--latitude", "48", "--longitude", "4.4", "--json"];
        Assert.Equal(86.6, (await Outcome.Of(["weather", "value", File("packing/spdiff2.grib2"), .. at])).Json.GetProperty("value").GetDouble(), 1e-9);
        Assert.Equal(JsonValueKind.Null, (await Outcome.Of(["weather", "value", File("packing/simple_bitmap_all_missing.grib2"), .. at])).Json.GetProperty("value").ValueKind);
        Assert.Equal(["--latitude, --longitude"], (await Outcome.Of("weather", "value", File("packing/simple.grib2"), "--message", "1", "--latitude", "0", "--longitude", "0")).Faults);
        Assert.Equal(["--message"], (await Outcome.Of("weather", "value", File("packing/simple.grib2"), "--message", "2", "--latitude", "48", "--longitude", "4.4")).Faults);
    }

    /// <summary>profiles/deck_hours_synthetic.decks.csv, S1 at hour 3.</summary>
    [Fact]
    public async Task Profile_has_levels_decks_and_how_likely_they_are()
    {
        var answer = (await Outcome.Of(
            "weather", "profile", File("profiles/deck_hours_synthetic.grib2"), "--latitude", "47", "--longitude", "8", "--at", "2026-01-20T03:00:00Z", "--lookout-height", "1300", "--json")).Json;
        Assert.Equal("high", answer.GetProperty("likelihood").GetString());
        Assert.Equal(709.7, answer.GetProperty("decks")[0].GetProperty("baseM").GetDouble(), 1.0);
        Assert.Equal("above", answer.GetProperty("lookout").GetProperty("verdict").GetString());
        Assert.True(answer.GetProperty("levels")[0].TryGetProperty("pressureHPa", out _));
        Assert.Equal(["--at"], (await Outcome.Of("weather", "profile", File("profiles/deck_hours_synthetic.grib2"), "--latitude", "47", "--longitude", "8", "--at", "2026-01-22T03:00:00Z")).Faults);
    }

    /// <summary>beam/slab_grid.expected.csv, row 4.</summary>
    [Fact]
    public async Task Beam_tells_what_cloud_takes_and_where()
    {
        var answer = (await Outcome.Of(
            "weather", "beam", File("beam/slab_grid.grib2"), "--from", "46,7,2200", "--azimuth", "100", "--altitude", "-0.7", "--at", "2026-01-20T06:00:00Z", "--json")).Json;
        Assert.Equal(26.6, answer.GetProperty("opticalDepth").GetDouble(), 0.9);
        Assert.InRange(answer.GetProperty("share").GetDouble(), 0, 1e-9);
        Assert.Equal(100, answer.GetProperty("crossings")[0].GetProperty("bearingDeg").GetDouble(), 1.0);
        Assert.Equal(["--from"], (await Outcome.Of("weather", "beam", File("beam/slab_grid.grib2"), "--from", "46", "--azimuth", "100", "--altitude", "1", "--at", "2026-01-20T06:00:00Z")).Faults);
    }

    /// <summary>igra/ZZM00099001.design.csv: 41 decks in January at 00 UTC.</summary>
    [Fact]
    public async Task A_station_tells_how_often_by_month()
    {
        var answer = (await Outcome.Of("cloud", "--station", File("igra/ZZM00099001-data.txt.zip"), "--top", "3000", "--json")).Json;
        var january = answer.GetProperty("months")[0];
        Assert.Equal((1, 0, 92, 41), (january.GetProperty("month").GetInt32(), january.GetProperty("hour").GetInt32(), january.GetProperty("soundings").GetInt32(), january.GetProperty("below").GetInt32()));
        Assert.InRange(january.GetProperty("share").GetDouble(), january.GetProperty("low").GetDouble(), january.GetProperty("high").GetDouble());
        Assert.Equal(["--top"], (await Outcome.Of("cloud", "--station", File("igra/ZZM00099001-data.txt.zip"))).Faults);
    }

    /// <summary>The demo's invented weather: fog in the valley, broken cloud in the beam.</summary>
    [Fact]
    public async Task A_forecast_with_weather_tells_chances_apart_from_the_window()
    {
        var window = (await Outcome.Of("demo", "--no-serve", "--json")).Json.GetProperty("windows")[0];
        var weather = window.GetProperty("weather");
        foreach (var name in (string[])["beamChance", "deckChance", "aboveDeckChance", "beamLow", "beamHigh"]) Assert.InRange(weather.GetProperty(name).GetDouble(), 0.05, 0.9);
        Assert.True(weather.GetProperty("beamLow").GetDouble() <= weather.GetProperty("beamHigh").GetDouble());
        Assert.Equal("2026-10-24T00:00:00Z", weather.GetProperty("run").GetString());
        Assert.Equal(3, weather.GetProperty("stepHours").GetDouble());
        // The band of cloud lies in the morning sun, at 500 hPa.
        Assert.Equal(window.GetProperty("sunAzimuthDeg").GetDouble(), weather.GetProperty("worstBearingDeg").GetDouble(), 15.0);
        Assert.InRange(weather.GetProperty("worstHeightM").GetDouble(), 4206, 7185);
        Assert.All(weather.GetProperty("hours").EnumerateArray(), hour => Assert.InRange(hour.GetProperty("topHighM").GetDouble(), 988, 1220));
        Assert.Contains("Models miss much low cloud", weather.GetProperty("caution").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_a_plan_needs_is_cut_out_and_gives_the_same_forecast()
    {
        var folder = Directory.CreateTempSubdirectory("glowcast-weather-").FullName;
        try
        {
            var samples = Path.Combine(Checkout.Root, "terrain-samples");
            var plan = JsonNode.Parse(await System.IO.File.ReadAllTextAsync(Path.Combine(samples, "demo-plan.json"), TestContext.Current.CancellationToken))!;
            plan["grids"] = new JsonArray(Path.Combine(samples, "N46W032.hgt"));
            plan["conditions"]!["weather"] = new JsonArray("of-this-plan.grib2");
            var (path, small) = (Path.Combine(folder, "plan.json"), Path.Combine(folder, "of-this-plan.grib2"));
            await System.IO.File.WriteAllTextAsync(path, plan.ToJsonString(), TestContext.Current.CancellationToken);
            Assert.Equal(["conditions.weather " + small], (await Outcome.Of("light", "--plan", path)).Faults);

            var cut = (await Outcome.Of("weather", "cut", Path.Combine(samples, "demo-run.grib2"), "--plan", path, "--out", small, "--json")).Json;
            Assert.InRange(cut.GetProperty("fields").GetInt32(), 200, 370);
            var whole = (await Outcome.Of("demo", "--no-serve", "--json")).Json.GetProperty("windows")[0].GetProperty("weather");
            var kept = (await Outcome.Of("light", "--plan", path, "--json")).Json.GetProperty("windows")[0].GetProperty("weather");
            foreach (var name in (string[])["beamChance", "deckChance", "aboveDeckChance"]) Assert.Equal(whole.GetProperty(name).GetDouble(), kept.GetProperty(name).GetDouble(), 1e-6);
            Assert.Equal(whole.GetProperty("hours").GetArrayLength(), kept.GetProperty("hours").GetArrayLength());
            Assert.Equal(["--out"], (await Outcome.Of("weather", "cut", small, "--plan", path, "--out", small)).Faults);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
