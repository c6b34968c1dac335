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

    /// <summary>Invented: fog under a strong inversion, its top near 1000 m.</summary>
    public const string Sounding = """
        pressure_hPa,height_m,temp_c,dewpoint_c,wind_dir_deg,wind_speed_kt
        943,600,0.0,-0.1,180,2
        909,900,-1.5,-1.7,180,3
        877,1200,6.0,-4.0,200,6
        795,2000,2.0,-15.0,220,12
        700,3020,-5.0,-25.0,240,18
        """;

    /// <summary>Two frames of a morning, by what their files say.</summary>
    public const string Take = """
        {
          "frames": [
            { "name": "a01.dng", "taken": "2026-02-14T06:45:00.00", "offsetFromUtc": "-05:00", "exposureS": 0.02, "aperture": 11, "iso": 100, "focalLengthMm": 135 },
            { "name": "a02.dng", "taken": "2026-02-14T06:45:04.02", "offsetFromUtc": "-05:00", "exposureS": 0.02, "aperture": 11, "iso": 100, "focalLengthMm": 135 }
          ]
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

    /// <param name="field">"lookout", "gear", "plan" or "sounding".</param>
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
                "sounding" => JsonValue.Create(Sounding),
                _ => plan,
            },
        };
    }
}
