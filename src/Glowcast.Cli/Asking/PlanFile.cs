using System.Text.Json;
using System.Text.Json.Nodes;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;

namespace Glowcast.Cli.Asking;

/// <summary>Plans from files.</summary>
internal static class PlanFile
{
    private const int MostBytes = 1_000_000;

    private static readonly JsonDocumentOptions Strict = new() { MaxDepth = 16, AllowDuplicateProperties = false };

    /// <param name="changes">What the command line says instead: fields of the plan with their values.</param>
    /// <exception cref="BadInputException">It cannot be read, or something in it is wrong; names every field.</exception>
    public static Plan Read(string path, string field, PlanNeeds needs, IReadOnlyDictionary<string, JsonNode> changes)
    {
        var faults = new Faults();
        using var file = InputFile.Open(path, $"{field} {path}", "a plan", faults);
        faults.ThrowIfAny();
        var bytes = new byte[MostBytes + 1];
        var length = file!.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        if (length > MostBytes) throw new BadInputException($"{field} {path}", $"Is larger than {MostBytes} bytes; a plan has about a thousand.");
        using var changed = Changed(new MemoryStream(bytes, 0, length), changes);
        return PlanReader.Read(changed, needs);
    }

    /// <summary>Where the grids of a plan lie: beside the plan, or else in the current folder.</summary>
    public static IReadOnlyList<string> GridPaths(Plan plan, string planPath)
    {
        var folder = Path.GetDirectoryName(Path.GetFullPath(planPath)) ?? "";
        return [.. plan.Grids.Select(name => Path.Combine(folder, name) is var beside && !File.Exists(beside) && File.Exists(name) ? name : beside)];
    }

    private static MemoryStream Changed(MemoryStream json, IReadOnlyDictionary<string, JsonNode> changes)
    {
        if (changes.Count == 0) return json;
        try
        {
            if (JsonNode.Parse(json, documentOptions: Strict) is JsonObject plan)
            {
                foreach (var (name, value) in changes) plan[name] = value.DeepClone();
                return new MemoryStream(JsonSerializer.SerializeToUtf8Bytes(plan));
            }
        }
        catch (JsonException)
        {
            // The reader of plans says what is wrong with it.
        }
        json.Position = 0;
        return json;
    }
}
