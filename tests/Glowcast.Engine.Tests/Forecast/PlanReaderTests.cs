using System.Text;
using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

public class PlanReaderTests
{
    private const string Whole = """
        {
          "lookout": { "latitudeDeg": 44.2592, "longitudeDeg": -71.2025, "eyeHeightM": 1.7, "timeZone": "America/New_York" },
          "grids": ["N44W072.hgt"], "date": "2026-02-14",
          "span": { "fromDeg": 245, "toDeg": 330, "ridgeFromKm": 5, "verticalDeg": 12 },
          "camera": { "sensorWidthMm": 36, "sensorHeightMm": 24, "pixelsWide": 8256, "pixelsHigh": 5504 },
          "lens": { "focalLengthMm": 135, "aperture": 11 },
          "set": { "orientation": "portrait", "overlap": 0.4, "rowOverlap": 0.4, "columns": null, "rows": 2, "spareFrames": 1, "repeats": 1, "rowOrder": "oneWay",
                   "rotateS": 1.5, "settleS": 2, "exposureS": 0.02, "writeS": 0.5, "rowChangeS": 5, "returnS": 3, "markerS": 3, "repeatGapS": 4,
                   "levelErrorDeg": 0.2, "pupilOffsetMm": 80, "printPpi": 300 },
          "conditions": { "visibilityKm": 80, "deckTopM": null, "sounding": null, "pressureHPa": null, "temperatureC": null, "aerosolBeta": 0.05, "refractionK": 0.13 },
          "thresholds": { "crestBandDeg": 0.5, "columnsLit": 0.9, "discShare": 0.9, "valleyLit": 0.2, "exposureDriftStops": 0.33 }
        }
        """;

    [Fact]
    public void A_whole_plan_is_read_field_by_field()
    {
        var plan = Read(Whole);

        Assert.Equal(GeoPoint.FromDegrees(44.2592, -71.2025), plan.Lookout!.Point);
        Assert.Equal("America/New_York", plan.Lookout.Zone!.Id);
        Assert.Equal(new LocalDate(2026, 2, 14), plan.Date);
        Assert.Equal(85, plan.Span.Width.Degrees, 9);
        Assert.Equal(5504, plan.Gear!.Camera.PixelsHigh);
        Assert.Equal(135, plan.Gear.Lens.FocalLength.Millimetres, 9);
        Assert.Equal(Orientation.Portrait, plan.Set.Orientation);
        Assert.Null(plan.Set.Columns);
        Assert.Equal(2, plan.Set.Rows);
        Assert.Equal(Duration.FromSeconds(1.5), plan.Set.Times.Rotate);
        Assert.Null(plan.Conditions.DeckTop);
        Assert.Equal(0.33, plan.ExposureDriftStops);
    }

    [Fact]
    public void What_is_left_out_takes_its_default_and_a_set_needs_no_lookout()
    {
        var plan = Read("""
            { "span": { "fromDeg": 350, "toDeg": 20 },
              "camera": { "sensorWidthMm": 36, "sensorHeightMm": 24, "pixelsWide": 6000, "pixelsHigh": 4000 }, "lens": { "focalLengthMm": 100 } }
            """, PlanNeeds.Gear);

        Assert.Null(plan.Lookout);
        Assert.Equal(30, plan.Span.Width.Degrees, 9);
        Assert.Equal(0.4, plan.Set.Overlap);
        Assert.Equal(1, plan.Set.Repeats);
        Assert.Equal(0.9, plan.Thresholds.ColumnsLit);
        Assert.Equal(5, plan.Thresholds.RidgeFrom.Kilometres, 9);
        Assert.Equal(PastEdge.AsTheEdge, plan.Conditions.Sight.BeyondGrid);
    }

    [Fact]
    public void All_faults_are_said_at_once_each_under_its_field()
    {
        var refusal = Assert.Throws<BadInputException>(() => Read("""
            {
              "lookout": { "latitudeDeg": 91, "longitudeDeg": "east", "timeZone": "Europe/Nowhere", "height": 3 },
              "grids": "N44W072.hgt", "date": "14.2.2026",
              "span": { "fromDeg": 245, "toDeg": 605, "verticalDeg": 0 },
              "camera": { "sensorWidthMm": 36, "sensorHeightMm": -24, "pixelsWide": 0, "pixelsHigh": 55.5 },
              "lens": { "focalLengthMm": 0 },
              "set": { "orientation": "upright", "overlap": 1, "rows": 0, "exposureS": 0 },
              "conditions": { "visibilityKm": 0, "pressureHPa": 850 },
              "thresholds": { "columnsLit": 1.5 },
              "colour": "red"
            }
            """));

        var fields = refusal.Faults.Select(fault => fault.Field).ToList();
        string[] expected =
        [
            "lookout.latitudeDeg", "lookout.longitudeDeg", "lookout.timeZone", "lookout.height", "grids", "date", "span.toDeg", "span.verticalDeg",
            "camera.sensorHeightMm", "camera.pixelsWide", "camera.pixelsHigh", "lens.focalLengthMm", "set.orientation", "set.overlap", "set.rows",
            "set.exposureS", "conditions.visibilityKm", "conditions.temperatureC", "thresholds.columnsLit", "colour",
        ];
        Assert.Equal(expected.Order(), fields.Order());
        Assert.All(refusal.Faults, fault => Assert.True(fault.Message.Length > 10, fault.ToString()));
    }

    [Theory]
    [InlineData("lookout", "lookout.latitudeDeg")]
    [InlineData("grids", "grids")]
    [InlineData("date", "date")]
    [InlineData("span", "span.fromDeg")]
    [InlineData("camera", "camera.pixelsWide")]
    [InlineData("lens", "lens.focalLengthMm")]
    public void A_part_that_is_missing_is_named(string part, string field)
    {
        var json = System.Text.Json.Nodes.JsonNode.Parse(Whole)!.AsObject();
        json.Remove(part);
        var refusal = Assert.Throws<BadInputException>(() => Read(json.ToJsonString()));
        Assert.Contains(refusal.Faults, fault => fault.Field == field && fault.Message.Contains("missing", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("1949-12-31")]
    [InlineData("2101-01-01")]
    [InlineData("2026-02-30")]
    public void Dates_lie_from_1950_to_2100_and_exist(string date)
    {
        var refusal = Assert.Throws<BadInputException>(() => Read(Whole.Replace("2026-02-14", date, StringComparison.Ordinal)));
        Assert.Equal("date", Assert.Single(refusal.Faults).Field);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("{ \"date\": \"2026-02-14\", \"date\": \"2026-02-15\" }")]
    [InlineData("{ \"span\": { \"fromDeg\": NaN } }")]
    [InlineData("{ \"span\": 5 }")]
    [InlineData("{ \"date\": \"\\ud800\" }")]
    [InlineData("{ \"\\ud800\": 1 }")]
    [InlineData("{ \"grids\": [\"\\udc00.hgt\"] }")]
    [InlineData("{ \"set\": { \"orientation\": \"\\ud800\" } }")]
    [InlineData("{ \"span\": { \"fromDeg\": 1e999, \"toDeg\": 5 } }")]
    public void What_is_no_plan_is_refused_without_a_crash(string json) => Assert.Throws<BadInputException>(() => Read(json));

    [Fact]
    public void What_is_nested_too_deep_and_what_is_given_twice_is_said_in_our_words()
    {
        var deep = Assert.Single(Assert.Throws<BadInputException>(() => Read("{\n \"grids\": " + new string('[', 100) + new string(']', 100) + "}")).Faults);
        Assert.Equal(("plan", "Is nested more than 16 levels deep in line 2, at character 26; nothing that is read here needs so many."), (deep.Field, deep.Message));
        var twice = Assert.Single(Assert.Throws<BadInputException>(() => Read("""{ "date's": 1, "date's": 2 }""")).Faults);
        Assert.Equal("Gives the field 'date's' twice in one object; give it once.", twice.Message);
        var name = new string('n', 500);
        Assert.InRange(Assert.Throws<BadInputException>(() => Read($$"""{ "{{name}}": 1, "{{name}}": 2 }""")).Faults[0].Message.Length, 1, 140);
    }

    [Fact]
    public void Bytes_that_are_no_text_are_refused_without_a_crash() =>
        Assert.Throws<BadInputException>(() => PlanReader.Read(new MemoryStream([(byte)'{', (byte)'"', 0xFF, 0xFE, (byte)'"', (byte)':', (byte)'1', (byte)'}']), PlanNeeds.Gear));

    [Theory]
    [InlineData("thresholds", "crestBandDeg", 1e-300)]
    [InlineData("set", "exposureS", 1e-10)]
    [InlineData("set", "printPpi", 1e-310)]
    [InlineData("camera", "sensorWidthMm", 1e-12)]
    [InlineData("lens", "focalLengthMm", 1e-300)]
    public void Numbers_too_small_to_mean_anything_are_refused(string part, string field, double value)
    {
        var json = System.Text.Json.Nodes.JsonNode.Parse(Whole)!.AsObject();
        json[part]![field] = value;
        Assert.Equal($"{part}.{field}", Assert.Single(Assert.Throws<BadInputException>(() => Read(json.ToJsonString())).Faults).Field);
    }

    private static Plan Read(string json, PlanNeeds needs = PlanNeeds.Forecast) => PlanReader.Read(new MemoryStream(Encoding.UTF8.GetBytes(json)), needs);
}
