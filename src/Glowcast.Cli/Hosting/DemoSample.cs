using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Hosting;

/// <summary>The invented range and the plan for it (terrain-samples/), which travel inside this program.</summary>
internal static class DemoSample
{
    public const string GridName = "N46W032.hgt";

    private const string PlanName = "demo-plan.json";

    public static JsonElement PlanJson()
    {
        using var stream = Open(PlanName);
        using var document = JsonDocument.Parse(stream);
        return document.RootElement.Clone();
    }

    public static Plan Plan() => PlanReader.Read(PlanJson(), PlanNeeds.Forecast);

    public static ElevationGrid Grid()
    {
        using var stream = Open(GridName);
        return GridFile.Read(stream, GridName);
    }

    private static Stream Open(string name) => typeof(DemoSample).Assembly.GetManifestResourceStream(name)
        ?? throw new InvalidOperationException($"This program was built without {name}.");
}
