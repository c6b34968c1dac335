using System.Globalization;
using System.Text.Json.Nodes;

namespace Glowcast.Cli.Tests;

/// <summary>A take as it is posted: two rows of nine frames of one plan, shot on the day that <see cref="MadeValley"/> is forecast for, whole for sure.</summary>
internal static class ShotTake
{
    private const double StepS = 4.02;

    /// <param name="forecast">Address of the forecast that it is laid beside and kept with.</param>
    public static JsonObject KeptWith(string forecast) => new()
    {
        ["plan"] = JsonNode.Parse("""
            {
              "span": { "fromDeg": 245, "toDeg": 330 },
              "camera": { "sensorWidthMm": 36, "sensorHeightMm": 24, "pixelsWide": 8256, "pixelsHigh": 5504 },
              "lens": { "focalLengthMm": 135, "aperture": 11 },
              "set": { "columns": 7, "rows": 1, "spareFrames": 1, "repeats": 1 }
            }
            """),
        ["forecast"] = forecast,
        ["keep"] = true,
        ["frames"] = new JsonArray([.. Enumerable.Range(0, 18).Select(Frame)]),
    };

    private static JsonNode Frame(int number) => new JsonObject
    {
        ["name"] = $"IMG_{number:0000}.jpg",
        ["taken"] = new DateTime(2026, 3, 20, 6, 45, 0, DateTimeKind.Unspecified).AddSeconds((45 * (number / 9)) + (StepS * (number % 9))).ToString("yyyy-MM-dd'T'HH:mm:ss.fff", CultureInfo.InvariantCulture),
        ["offsetFromUtc"] = "+01:00",
        ["exposureS"] = 0.02,
    };
}
