using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Json.Schema;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>The published schema and the reader say the same of a plan.</summary>
public class PlanSchemaTests
{
    private static readonly string Top = FindTop();

    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Top, "docs", "plan.schema.json")));

    [Fact]
    public void The_demos_plan_is_a_plan() => Assert.True(Agree(File.ReadAllText(Path.Combine(Top, "terrain-samples", "demo-plan.json"))));

    [Theory]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 } }""", true)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": null, "conditions": { "deckTopM": null } }""", true)]
    [InlineData("""{ "span": { "fromDeg": 10 } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "colour": 1 }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "overlap": 1 } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "rows": 1.5 } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "orientation": "upright" } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "thresholds": { "columnsLit": 0 } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "bracketShots": 3, "bracketStops": 2 }, "conditions": { "cloudFrom": "left" } }""", true)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "bracketShots": 2 } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "conditions": { "cloudFrom": "west" } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "conditions": { "cloudLayers": { "high": { "cover": 0.5, "baseM": 8000 }, "low": null } } }""", true)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "conditions": { "cloudLayers": { "high": { "cover": 4, "baseM": 8000 } } } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "conditions": { "cloudLayers": { "fair": { "cover": 0.4, "baseM": 8000 } } } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "startAt": "06:52" } }""", true)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "startAt": "06:52:30" } }""", true)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "startAt": { "half": "evening", "afterOpensS": -60 } } }""", true)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "startAt": "6:52" } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "startAt": "24:00" } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "startAt": 652 } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "startAt": { "half": "evening" } } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "set": { "startAt": { "afterOpensS": 3 } } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20, "darkStrips": [{ "fromDeg": 12, "toDeg": 13 }] } }""", true)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20, "darkStrips": [{ "fromDeg": 12 }] } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "thresholds": { "fitsChance": 0.8, "tightChance": 0.4, "unknownChance": 0.7, "leastSpanShare": 0.3 } }""", true)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "thresholds": { "fitsChance": 1.5 } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "seasonWeights": { "colour": 2, "moon": 0 } }""", true)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "seasonWeights": { "colour": -1 } }""", false)]
    [InlineData("""{ "span": { "fromDeg": "10", "toDeg": 20 } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "lookout": { "latitudeDeg": 91, "longitudeDeg": 0 } }""", false)]
    [InlineData("""{ "span": { "fromDeg": 10, "toDeg": 20 }, "grids": "a.hgt" }""", false)]
    public void Both_accept_and_refuse_alike(string json, bool isPlan) => Assert.Equal(isPlan, Agree(json));

    private static bool Agree(string json)
    {
        using var document = JsonDocument.Parse(json);
        var bySchema = Schema.Evaluate(document.RootElement).IsValid;
        bool byReader;
        try
        {
            PlanReader.Read(document.RootElement, PlanNeeds.Nothing);
            byReader = true;
        }
        catch (BadInputException)
        {
            byReader = false;
        }
        Assert.Equal(bySchema, byReader);
        return byReader;
    }

    private static string FindTop()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Glowcast.sln"))) folder = folder.Parent!;
        return folder.FullName;
    }
}
