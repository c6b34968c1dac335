using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;

namespace Glowcast.Cli.Tests;

/// <summary>A made piece of ground and a plan for it, in a folder that goes when the tests are over: a western ridge that
/// the first sun reaches, a valley in the shade of a spur, the lookout on the spur, and a range in the east.</summary>
public sealed class MadeValley : IDisposable
{
    private const double SouthDeg = 46;
    private const double WestDeg = 7.5;
    private const double StepDeg = 0.0025;
    private const double KmPerDegree = 77.4;

    public MadeValley()
    {
        Directory.CreateDirectory(Folder);
        File.WriteAllText(Grid, Ground());
        File.WriteAllText(Plan, PlanWith().ToJsonString());
    }

    public const string Lookout = "46.1,7.7584";

    public const string Crest = "46.1,7.6034";

    public const string ValleyFloor = "46.1,7.7";

    public string Folder { get; } = Path.Combine(Path.GetTempPath(), $"glowcast-{Guid.NewGuid():N}");

    public string Grid => Path.Combine(Folder, "valley.asc");

    public string Plan => Path.Combine(Folder, "plan.json");

    /// <summary>The plan as JSON, to be changed.</summary>
    public static JsonObject PlanWith(params (string Path, JsonNode? Value)[] changes)
    {
        var plan = JsonNode.Parse("""
            {
              "lookout": { "latitudeDeg": 46.1, "longitudeDeg": 7.7584, "timeZone": "Europe/Zurich" },
              "grids": ["valley.asc"], "date": "2026-03-20",
              "span": { "fromDeg": 260, "toDeg": 280 },
              "camera": { "sensorWidthMm": 36, "sensorHeightMm": 24, "pixelsWide": 8256, "pixelsHigh": 5504 },
              "lens": { "focalLengthMm": 135, "aperture": 11 },
              "set": { "rows": 2 }
            }
            """)!.AsObject();
        foreach (var (path, value) in changes)
        {
            var parts = path.Split('.');
            var parent = parts.Length > 1 ? (plan[parts[0]] ??= new JsonObject()).AsObject() : plan;
            parent[parts[^1]] = value;
        }
        return plan;
    }

    /// <inheritdoc cref="Write(string, string)"/>
    public string Write(string name, byte[] bytes)
    {
        var path = Path.Combine(Folder, name);
        File.WriteAllBytes(path, bytes);
        return path;
    }

    /// <summary>Writes a file into the folder and answers where it is.</summary>
    public string Write(string name, string text)
    {
        var path = Path.Combine(Folder, name);
        File.WriteAllText(path, text);
        return path;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private static string Ground()
    {
        const int rows = 81, columns = 201;
        var text = new StringBuilder(FormattableString.Invariant($"ncols {columns}\nnrows {rows}\nxllcenter {WestDeg}\nyllcenter {SouthDeg}\ncellsize {StepDeg}\n"));
        var row = string.Join(' ', Enumerable.Range(0, columns).Select(column => Height(column * StepDeg * KmPerDegree).ToString("0", CultureInfo.InvariantCulture)));
        for (var i = 0; i < rows; i++) text.AppendLine(row);
        return text.ToString();
    }

    private static double Height(double eastKm) => new[]
    {
        600, 2200 - (350 * Math.Abs(eastKm - 8)), 1500 - (500 * Math.Abs(eastKm - 20)), 2000 - (300 * Math.Abs(eastKm - 31)),
    }.Max();
}
