using System.Text.Json.Nodes;
using Glowcast.Engine.Terrain;

namespace Glowcast.Server.Tests;

/// <summary>A scene made for tests: a flat valley floor, a high serrated ridge from north to south in the west, a lower one
/// in the east with the lookout on it. On an October morning the western crest is lit while the floor is in shade.</summary>
internal static class MadeValley
{
    public const string GridId = "made.hgt";

    private const int Size = 1201;
    private const int WestRidgeColumn = 500;
    private const int EastRidgeColumn = 700;

    /// <summary>South-west corner 46° N 7° E; posts every 3″.</summary>
    public static ElevationGrid Grid { get; } = Make();

    /// <summary>A plan that fits, quick to answer.</summary>
    public static JsonObject Plan() => JsonNode.Parse($$"""
        {
          "lookout": { "latitudeDeg": 46.5, "longitudeDeg": {{7 + ((EastRidgeColumn - 1) / 1200.0)}}, "timeZone": "Europe/Zurich" },
          "grids": ["{{GridId}}"], "date": "2026-10-20",
          "span": { "fromDeg": 262, "toDeg": 278, "ridgeFromKm": 8 },
          "camera": { "sensorWidthMm": 36, "sensorHeightMm": 24, "pixelsWide": 8256, "pixelsHigh": 5504 },
          "lens": { "focalLengthMm": 135, "aperture": 11 },
          "set": { "rows": 2, "repeats": 0 }
        }
        """)!.AsObject();

    /// <summary>The same, with more and slower sets than the light lasts.</summary>
    public static JsonObject PlanTooLong()
    {
        var plan = Plan();
        plan["set"]!["repeats"] = 50;
        plan["set"]!["settleS"] = 60;
        return plan;
    }

    /// <summary>The same ground as a file N46E007.hgt has it: 16-bit metres, the high byte first, row by row from the north.</summary>
    public static byte[] Hgt() => [.. Heights().SelectMany(height => (byte[])[(byte)((short)height >> 8), (byte)(short)height])];

    private static ElevationGrid Make() => new(new GridPosts(Size, Size, 47, 7, 1.0 / 1200, 1.0 / 1200), Heights(), GridId);

    private static float[] Heights()
    {
        var heights = new float[Size * Size];
        for (var row = 0; row < Size; row++)
        {
            var crestM = 2500 + (150 * Math.Sin(row / 9.0)) + (90 * Math.Sin(row / 3.7));
            for (var column = 0; column < Size; column++)
            {
                var westM = crestM - (100 * Math.Abs(column - WestRidgeColumn));
                var eastM = 1500 - (100.0 * Math.Abs(column - EastRidgeColumn));
                heights[(row * Size) + column] = (float)Math.Max(500, Math.Max(westM, eastM));
            }
        }
        return heights;
    }
}
