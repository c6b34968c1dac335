using System.Text.Json;
using System.Text.Json.Nodes;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Asking;

/// <summary>A plan in a file, with what the command line says instead.</summary>
internal sealed class PlanFile
{
    private const int MostBytes = 1_000_000;

    private readonly string folder;
    private readonly byte[] bytes;

    // Null where the bytes are no object; the reader of plans then says what they are.
    private readonly JsonObject? json;
    private bool isChanged;

    private PlanFile(string path, byte[] bytes)
    {
        (folder, this.bytes) = (Path.GetDirectoryName(Path.GetFullPath(path)) ?? "", bytes);
        json = Parse(bytes);
    }

    /// <exception cref="BadInputException">It cannot be opened, or is far too large.</exception>
    public static PlanFile Open(string path, string field)
    {
        var faults = new Faults();
        using var file = InputFile.Open(path, $"{field} {path}", "a plan", faults);
        faults.ThrowIfAny();
        var bytes = new byte[MostBytes + 1];
        var length = file!.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        return length <= MostBytes
            ? new PlanFile(path, bytes[..length])
            : throw new BadInputException($"{field} {path}", $"Is larger than {MostBytes} bytes; a plan has about a thousand.");
    }

    /// <summary>Where the plan's grids lie, faulty as it may be otherwise: beside the plan, or else in the current folder.</summary>
    public IReadOnlyList<string> GridPaths => json?["grids"] is JsonArray names
        ? [.. names.OfType<JsonValue>().Where(name => name.GetValueKind() == JsonValueKind.String).Select(name => PathOf(name.GetValue<string>()))]
        : [];

    /// <summary>Puts a value in the place of the plan's own.</summary>
    public void Change(string name, JsonNode value)
    {
        if (json is null) return;
        json[name] = value;
        isChanged = true;
    }

    /// <exception cref="BadInputException">Something in it is missing or wrong; names every field.</exception>
    /// <param name="readsWeather">Whether the weather files it names are opened.</param>
    public Plan Read(PlanNeeds needs, bool readsWeather = true)
    {
        using var stream = new MemoryStream(!isChanged ? bytes : JsonSerializer.SerializeToUtf8Bytes(json));
        return PlanReader.Read(stream, needs, named => SoundingText.Read(PathOf(named), "conditions.sounding"),
            names => readsWeather ? WeatherAsked.Of([.. names.Select(PathOf)], "conditions.weather") : null,
            named => SurfaceRaster.Of(GridFiles.Read([PathOf(named)], "conditions.surfaces", new GridReading()), "conditions.surfaces"));
    }

    private string PathOf(string name)
    {
        var beside = Path.Combine(folder, name);
        return !File.Exists(beside) && File.Exists(name) ? name : beside;
    }

    private static JsonObject? Parse(byte[] bytes)
    {
        try
        {
            using var document = PlanText.Parse(bytes);
            return JsonObject.Create(document.RootElement.Clone());
        }
        catch (Exception unreadable) when (unreadable is BadInputException or InvalidOperationException)
        {
            // Broken, or not an object.
            return null;
        }
    }
}
