using System.Globalization;
using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>Real soundings as they were served, their normalised tables, and what an independent program made of them by
/// the same rules (../shared/reference/soundings; its README and licences say whose they are). They stay outside this repository.</summary>
public class RealSoundingTests
{
    private const double HeightToleranceM = 10;
    private const double TemperatureToleranceC = 0.1;

    public static TheoryData<string, string> Flights() => new()
    {
        { "BNA_2014022112", "raw.txt" }, { "BOI_2010120912", "raw.csv" }, { "CYYT_1999050400", "raw.json" }, { "KCHH_1999050400", "raw.json" },
        { "KLCH_1999050400", "raw.json" }, { "KNKX_1999050400", "raw.json" }, { "KWAL_1999050400", "raw.json" }, { "OAX_2014061619", "raw.txt" },
        { "OUN_1999050400", "raw.csv" }, { "OUN_2011052212", "raw.txt" }, { "OUN_2018122212", "raw.html" }, { "YBBN_2008111612", "raw.txt" },
        { "YMHB_2013070900", "raw.txt" },
    };

    [TheoryNeeds<SharedReference>]
    [MemberData(nameof(Flights))]
    public void A_flight_as_served_reads_like_its_normalised_table(string flight, string served)
    {
        var (read, normalised) = (Read($"{flight}.{served}"), Read($"{flight}.csv"));
        Assert.Equal(normalised.Levels.Count, read.Levels.Count);
        foreach (var (expected, level) in normalised.Levels.Zip(read.Levels))
        {
            Near(expected.PressureHPa, level.PressureHPa, 0.01);
            Near(expected.HeightM, level.HeightM, 0.01);
            Near(expected.TemperatureC, level.TemperatureC, 0.01);
            Near(expected.DewPointC, level.DewPointC, 0.01);
            Near(expected.WindFromDeg, level.WindFromDeg, 0.01);
            // Converted from metres a second and rounded to two figures.
            Near(expected.WindKt, level.WindKt, 0.01);
        }
    }

    [TheoryNeeds<SharedReference>]
    [MemberData(nameof(Flights))]
    public void A_flight_is_judged_as_the_independent_program_judged_it(string flight, string served)
    {
        using var document = Expected(flight);
        var expected = document.RootElement.GetProperty("result");
        var diagnosis = CloudDiagnosis.Of(Profile.Of(Read($"{flight}.{served}"), flight));

        Assert.Equal(expected.GetProperty("inversions").GetArrayLength(), diagnosis.Inversions.Count);
        foreach (var (theirs, ours) in expected.GetProperty("inversions").EnumerateArray().Zip(diagnosis.Inversions))
        {
            Assert.Equal(theirs.GetProperty("type").GetString(), ours.Type == InversionType.Surface ? "surface" : "elevated");
            Near(Number(theirs, "base_m"), ours.Base.Metres, HeightToleranceM);
            Near(Number(theirs, "top_m"), ours.Top.Metres, HeightToleranceM);
            Near(Number(theirs, "strength_c"), ours.StrengthC, TemperatureToleranceC);
        }

        Assert.Equal(expected.GetProperty("moist_layers").GetArrayLength(), diagnosis.MoistLayers.Count);
        foreach (var (theirs, ours) in expected.GetProperty("moist_layers").EnumerateArray().Zip(diagnosis.MoistLayers))
        {
            Near(Number(theirs, "base_m"), ours.Base.Metres, HeightToleranceM);
            Near(Number(theirs, "top_m"), ours.Top.Metres, HeightToleranceM);
            Near(Number(theirs, "min_dd_c"), ours.LeastDepressionC, TemperatureToleranceC);
            Assert.Equal(theirs.GetProperty("touches_ground").GetBoolean(), ours.IsAtGround);
            Assert.Equal(theirs.GetProperty("open_top").GetBoolean(), ours.IsOpen);
        }

        Assert.Equal(expected.GetProperty("score").GetInt32(), diagnosis.Score);
        Assert.Equal(expected.GetProperty("likelihood").GetString(), diagnosis.Class.ToString(), ignoreCase: true);
        Near(Number(expected, "wind_mean_low300m_kt"), diagnosis.LowWindKt, 0.1);
        SameDeck(expected.GetProperty("deck"), diagnosis.Deck);
        foreach (var lookout in expected.GetProperty("lookouts").EnumerateArray())
            Assert.Equal(VerdictOf(lookout.GetProperty("verdict").GetString()!), diagnosis.LookoutAt(Length.FromMetres(Number(lookout, "height_m"))).Verdict);
    }

    [TheoryNeeds<SharedReference>]
    [MemberData(nameof(Flights))]
    public void The_moist_air_of_every_level_is_that_of_the_independent_program(string flight, string served)
    {
        using var document = Expected(flight);
        var levels = Profile.Of(Read($"{flight}.{served}"), flight).Levels;
        foreach (var (theirs, ours) in document.RootElement.GetProperty("levels").EnumerateArray().Zip(levels))
        {
            Near(Number(theirs, "p_hpa"), ours.PressureHPa, 0.01);
            Near(Number(theirs, "rh_pct"), MoistAir.RelativeHumidityPercent(ours.TemperatureC, ours.DewPointC), 0.01);
            Near(Number(theirs, "mixr_gkg"), MoistAir.MixingRatioGPerKg(ours.PressureHPa, ours.DewPointC), 0.001);
            Near(Number(theirs, "theta_k"), MoistAir.PotentialTemperatureK(ours.PressureHPa, ours.TemperatureC), 0.01);
            var lifted = MoistAir.LiftedCondensation(ours.PressureHPa, ours.TemperatureC, ours.DewPointC);
            Near(Number(theirs, "lcl_t_c"), lifted.TemperatureC, 0.01);
            Near(Number(theirs, "lcl_p_hpa"), lifted.PressureHPa, 0.05);
        }
    }

    [TheoryNeeds<SharedReference>]
    [InlineData("BOI_2010120912")]
    [InlineData("OUN_2011052212")]
    [InlineData("YMHB_2013070900")]
    [InlineData("real_10393_partA")]
    public void A_temp_message_decodes_level_by_level(string flight)
    {
        using var document = Expected($"{flight}.fm35");
        var report = TempDecoder.Decode(Text($"{flight}.fm35.txt"), flight);
        var meta = document.RootElement.GetProperty("meta");
        Assert.Equal(meta.GetProperty("station").GetString(), report.Station);
        Assert.Equal(new DayAndHour(meta.GetProperty("day").GetInt32(), meta.GetProperty("hour").GetInt32()), report.Time);
        Assert.Equal(meta.GetProperty("wind_unit").GetString() == "kt", report.WindInKnots);
        Assert.Equal(meta.GetProperty("highest_wind_level").GetString(), $"{report.HighestWindLevel}");
        Assert.Empty(report.PassedOver);

        var expected = document.RootElement.GetProperty("levels").EnumerateArray().ToList();
        Assert.Equal(expected.Count, report.Levels.Count);
        foreach (var (theirs, ours) in expected.Zip(report.Levels))
        {
            Assert.Equal((theirs.GetProperty("part").GetString(), theirs.GetProperty("kind").GetString()), ($"{ours.Part}", KindOf(ours.Kind)));
            Near(Number(theirs, "p_hpa"), ours.Level.PressureHPa, 0);
            if (ours.Kind == TempLevelKind.Mandatory) Near(Maybe(theirs, "z_m"), ours.Level.HeightM, 0);
            if (ours.Kind != TempLevelKind.SignificantWind)
            {
                Near(Maybe(theirs, "t_c"), ours.Level.TemperatureC, 1e-9);
                Near(Maybe(theirs, "td_c"), ours.Level.DewPointC, 1e-9);
            }
            if (ours.Kind == TempLevelKind.SignificantTemperature) continue;
            Near(Maybe(theirs, "dir"), ours.Level.WindFromDeg, 0);
            Near(Maybe(theirs, "spd_kt"), ours.Level.WindKt, 0.06);
        }
    }

    [TheoryNeeds<SharedReference>]
    [InlineData("BOI_2010120912")]
    [InlineData("OUN_2011052212")]
    [InlineData("YMHB_2013070900")]
    public void A_temp_message_is_judged_like_the_table_it_was_made_of(string flight)
    {
        // The message has temperatures to 0.1 °C with their sign in the last figure, depressions above 5 °C in whole degrees.
        var table = CloudDiagnosis.Of(Profile.Of(Read($"{flight}.csv"), flight));
        var message = CloudDiagnosis.Of(Profile.Of(Read($"{flight}.fm35.txt"), flight));
        Assert.Equal(table.Class, message.Class);
        Near(table.Profile.Surface.HeightM, message.Profile.Surface.HeightM, HeightToleranceM);
        Assert.Equal(table.Inversions.Count, message.Inversions.Count);
        foreach (var (one, other) in table.Inversions.Zip(message.Inversions))
        {
            Near(one.Base.Metres, other.Base.Metres, HeightToleranceM);
            Near(one.StrengthC, other.StrengthC, 0.2001);
        }
        Assert.Equal(table.Deck is null, message.Deck is null);
        if (table.Deck is { } deck) Near(deck.TopHigh.Metres, message.Deck!.TopHigh.Metres, HeightToleranceM);
    }

    private static void SameDeck(JsonElement expected, CloudDeck? deck)
    {
        Assert.Equal(expected.ValueKind == JsonValueKind.Null, deck is null);
        if (deck is null) return;
        Near(Number(expected, "base_m"), deck.Base.Metres, HeightToleranceM);
        Near(Number(expected, "top_low_m"), deck.TopLow.Metres, HeightToleranceM);
        Near(Number(expected, "top_high_m"), deck.TopHigh.Metres, HeightToleranceM);
        Near(Maybe(expected, "base_sat_m"), deck.Layer.SaturatedFrom?.Metres, HeightToleranceM);
        Assert.Equal(expected.GetProperty("kind").GetString(), deck.Kind == DeckKind.Fog ? "fog" : "stratus");
    }

    private static Sounding Read(string file) => SoundingFile.Read(Text(file), file);

    private static string Text(string file) => File.ReadAllText(SharedData.Path($"reference/soundings/{file}"));

    private static JsonDocument Expected(string flight) => JsonDocument.Parse(Text($"{flight}.expected.json"));

    private static double Number(JsonElement element, string name) => element.GetProperty(name).GetDouble();

    private static double? Maybe(JsonElement element, string name) => element.GetProperty(name) is { ValueKind: JsonValueKind.Number } number ? number.GetDouble() : null;

    private static void Near(double? expected, double? actual, double tolerance)
    {
        Assert.Equal(expected is null, actual is null);
        if (expected is { } wanted)
            Assert.True(Math.Abs(wanted - actual!.Value) <= tolerance + 1e-9, string.Create(CultureInfo.InvariantCulture, $"{wanted} expected, {actual} found"));
    }

    private static LookoutVerdict VerdictOf(string word) => word switch
    {
        "above" => LookoutVerdict.Above,
        "at-or-in-deck" => LookoutVerdict.At,
        "inside" => LookoutVerdict.In,
        "below" => LookoutVerdict.Below,
        _ => LookoutVerdict.NoDeck,
    };

    private static string KindOf(TempLevelKind kind) => kind switch
    {
        TempLevelKind.Surface => "surface",
        TempLevelKind.Mandatory => "mandatory",
        TempLevelKind.SignificantTemperature => "sig-temp",
        _ => "sig-wind",
    };
}
