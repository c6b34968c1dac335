using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Weather;

namespace Glowcast.Cli.Hosting;

/// <summary>The invented range and the plan for it (terrain-samples/), which travel inside this program.</summary>
internal static class DemoSample
{
    public const string GridName = "N46W032.hgt";

    private const string PlanName = "demo-plan.json";
    private const string RunName = "demo-run.grib2";

    public static JsonElement PlanJson()
    {
        using var stream = Open(PlanName);
        using var document = JsonDocument.Parse(stream);
        return document.RootElement.Clone();
    }

    /// <summary>With the invented weather, which the page goes without.</summary>
    public static Plan Plan()
    {
        var plan = PlanReader.Read(PlanJson(), PlanNeeds.Forecast);
        return plan with { Conditions = plan.Conditions with { Weather = Weather() } };
    }

    private static WeatherFiles Weather()
    {
        using var stream = Open(RunName);
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return new WeatherFiles(GribSet.Of([GribSource.InMemory(RunName, bytes.ToArray())]));
    }

    public static ElevationGrid Grid()
    {
        using var stream = Open(GridName);
        return GridFile.Read(stream, GridName);
    }

    private static Stream Open(string name) => typeof(DemoSample).Assembly.GetManifestResourceStream(name)
        ?? throw new InvalidOperationException($"This program was built without {name}.");
}
