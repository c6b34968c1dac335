using System.Text.Json.Nodes;

namespace Glowcast.Server.Api;

/// <summary>Examples for the description of the service; they can be sent as they are to a service that has a demo.</summary>
internal static class Examples
{
    // What a service without a demo shows.
    private const string UsualPlan = """
        {
          "lookout": { "latitudeDeg": 44.2592, "longitudeDeg": -71.2025, "timeZone": "America/New_York" },
          "grids": ["N44W072.hgt"], "date": "2026-02-14", "span": { "fromDeg": 245, "toDeg": 330 },
          "camera": { "sensorWidthMm": 36, "sensorHeightMm": 24, "pixelsWide": 8256, "pixelsHigh": 5504 },
          "lens": { "focalLengthMm": 135, "aperture": 11 }, "set": { "rows": 2 }
        }
        """;

    /// <summary>All but the address, which Content-Location of a forecast tells.</summary>
    public static JsonObject Note => new() { ["forecast"] = new string('0', 64), ["deckTopM"] = 1250, ["set"] = "whole", ["text"] = "Deck higher than thought, set whole." };

    public static JsonObject Plan(IServiceProvider services) =>
        services.GetRequiredService<ServerOptions>().DemoPlan is { } demo ? JsonObject.Create(demo)! : JsonNode.Parse(UsualPlan)!.AsObject();

    public static JsonObject Season(IServiceProvider services)
    {
        var plan = Plan(services);
        return new JsonObject { ["plan"] = plan, ["from"] = plan["date"]!.DeepClone(), ["to"] = plan["date"]!.DeepClone() };
    }

    /// <param name="field">"lookout", "gear" or "plan".</param>
    public static JsonObject Kept(IServiceProvider services, string field)
    {
        var plan = Plan(services);
        return new JsonObject
        {
            ["name"] = "West saddle",
            [field] = field switch
            {
                "lookout" => plan["lookout"]!.DeepClone(),
                "gear" => new JsonObject { ["camera"] = plan["camera"]!.DeepClone(), ["lens"] = plan["lens"]!.DeepClone(), ["set"] = plan["set"]?.DeepClone() },
                _ => plan,
            },
        };
    }
}
