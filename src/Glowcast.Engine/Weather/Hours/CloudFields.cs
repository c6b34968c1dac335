using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>The cloud of a run at one hour, about some places (docs/model.md, W17). The model's own cover and cloud water count first, then
/// cover reckoned from its humidity, then the cover of its low, middle and high sky.</summary>
internal sealed class CloudFields
{
    private const double DropletM = 10e-6;
    private const double CrystalM = 35e-6;
    private const double WaterDensity = 1000;
    private const double IceDensity = 917;
    private const double LeastWater = 1e-7;
    private const double HighestPa = 15_000;
    private const double LowRimM = 2000;

    // A published diagnostic parts the sky there (docs/model.md, W17).
    private static readonly (double BaseM, double TopM)[] Layers = [(300, 2000), (2000, 6000), (6000, 11_000)];

    private readonly WeatherRun run;
    private readonly Instant time;
    private readonly IReadOnlyList<GeoPoint> about;
    private readonly Dictionary<GribGrid, GridPatch?> patches = [];
    private readonly List<Level> levels;
    private readonly IReadOnlyList<Cut?> layers;

    public CloudFields(WeatherRun run, Instant time, IReadOnlyList<GeoPoint> about)
    {
        (this.run, this.time, this.about) = (run, time, about);
        levels = [.. LevelNumbers(run, time).Select(LevelAt).OfType<Level>()];
        layers = levels.Count > 0 ? [] : [LayerAt(Parameter.LowCover, 214), LayerAt(Parameter.MiddleCover, 224), LayerAt(Parameter.HighCover, 234)];
    }

    private sealed record Level(double? Pascal, Cut? PascalField, Cut Height, Cut Kelvin, IReadOnlyList<Cut> Water, IReadOnlyList<Cut> Ice, Cut? Cover, double CoverUnit, Cut? Humidity);

    private sealed record Cut(GridPatch Patch, float[] Values);

    public static bool IsIn(WeatherRun run, Instant time) =>
        LevelNumbers(run, time).Any() || LayerCover.Field(run, time, Parameter.LowCover, 214) is not null || LayerCover.Field(run, time, Parameter.MiddleCover, 224) is not null;

    /// <summary>Whether the files give cloud level by level, and not only for the low, middle and high sky.</summary>
    public bool HasLevels => levels.Count > 0;

    public bool IsReckonedFromHumidity => HasLevels && levels.TrueForAll(level => level is { Cover: null, Water: [], Ice: [] });

    /// <summary>Null outside the grid, or where values are missing.</summary>
    public CloudColumn? ColumnAt(GeoPoint place)
    {
        var cells = new Dictionary<GridPatch, PatchCell?>(2);
        return HasLevels ? OfLevels() : OfLayers();

        CloudColumn? OfLevels()
        {
            var column = levels.ConvertAll(level => At(level, Read));
            if (column.Exists(level => float.IsNaN(level.HeightM))) column = column.FindAll(level => !float.IsNaN(level.HeightM));
            if (column.Count == 0) return null;
            column.Sort((a, b) => a.HeightM.CompareTo(b.HeightM));
            return new CloudColumn([.. column.Select(level => level.HeightM)], [.. column.Select(level => level.PerKm)], [.. column.Select(level => level.Cover)]);
        }

        CloudColumn? OfLayers()
        {
            var covers = layers.Select(layer => layer is null ? 0 : Read(layer) / 100).ToList();
            if (covers.Exists(float.IsNaN)) return null;
            var edges = covers.SelectMany((cover, i) => new[] { ((float)Layers[i].BaseM, 0f), ((float)Layers[i].BaseM + 1, cover), ((float)Layers[i].TopM - 1, cover) }).Append(((float)Layers[^1].TopM, 0f)).ToList();
            return new CloudColumn([.. edges.Select(edge => edge.Item1)], [.. edges.Select(_ => float.NaN)], [.. edges.Select(edge => edge.Item2)]);
        }

        float Read(Cut cut)
        {
            if (!cells.TryGetValue(cut.Patch, out var cell)) cells[cut.Patch] = cell = cut.Patch.CellAt(place);
            return cell?.Value(cut.Values) ?? float.NaN;
        }
    }

    private static (float HeightM, float PerKm, float Cover) At(Level level, Func<Cut, float> read)
    {
        var heightM = read(level.Height);
        var cover = level.Cover is { } own ? Math.Clamp(read(own) * level.CoverUnit, 0, 1)
            : level.Humidity is { } humidity && level is { Water: [], Ice: [] } ? OfHumidity(read(humidity) / 100.0, heightM) : double.NaN;
        var perKm = level is { Water: [], Ice: [] } ? double.NaN : 1000 * Density() * (PerDensity(level.Water, DropletM, WaterDensity) + PerDensity(level.Ice, CrystalM, IceDensity));
        return (heightM, (float)perKm, (float)cover);

        // Extinction is 1.5 LWC / (ρ r) for drops much larger than light's waves.
        double PerDensity(IReadOnlyList<Cut> fields, double radiusM, double density) => 1.5 * fields.Sum(field => read(field) is > (float)LeastWater and var q ? q : 0) / (density * radiusM);

        double Density() => (level.PascalField is { } field ? read(field) : level.Pascal!.Value) / (MoistAir.DryGasConstant * read(level.Kelvin));
    }

    /// <summary>Cover from relative humidity (Sundqvist, Berge and Kristjánsson, Mon. Wea. Rev. 117 (1989) 1641).</summary>
    private static double OfHumidity(double share, double heightM)
    {
        var threshold = heightM < LowRimM ? 0.9 : 0.8;
        return share <= threshold ? 0 : 1 - Math.Sqrt((1 - Math.Min(share, 1)) / (1 - threshold));
    }

    private static IEnumerable<(int Type, double Value)> LevelNumbers(WeatherRun run, Instant time) =>
        from type in (int[])[GribLevel.Pressure, GribLevel.Hybrid, 118, 150]
        from value in run.Levels(time, Parameter.Temperature, type)
        where type != GribLevel.Pressure || value >= HighestPa
        where Sources.Any(parameter => run.Field(time, parameter, type, value) is not null)
        select (type, value);

    private static IEnumerable<Parameter> Sources => [Parameter.Cover, Parameter.CoverFraction, Parameter.TotalCover, .. Parameter.CloudWater, .. Parameter.CloudIce, Parameter.RelativeHumidity];

    private Level? LevelAt((int Type, double Value) level)
    {
        var height = Of(Parameter.GeopotentialHeight) ?? Of(Parameter.Height);
        var (kelvin, pressure) = (Of(Parameter.Temperature), level.Type == GribLevel.Pressure ? null : Of(Parameter.Pressure));
        if (height is null || kelvin is null || (pressure is null && level.Type != GribLevel.Pressure)) return null;
        var (cover, unit) = Of(Parameter.Cover) is { } percent ? (percent, Parameter.Cover.CoverUnit)
            : Of(Parameter.CoverFraction) is { } share ? (share, 1) : (Of(Parameter.TotalCover), Parameter.TotalCover.CoverUnit);
        return new Level(
            level.Type == GribLevel.Pressure ? level.Value : null, pressure, height, kelvin,
            [.. Parameter.CloudWater.Select(Of).OfType<Cut>()], [.. Parameter.CloudIce.Select(Of).OfType<Cut>()], cover, unit, Of(Parameter.RelativeHumidity));

        Cut? Of(Parameter parameter) => CutOf(run.Field(time, parameter, level.Type, level.Value));
    }

    private Cut? LayerAt(Parameter parameter, int layer) => CutOf(LayerCover.Field(run, time, parameter, layer));

    private Cut? CutOf(GribField? field)
    {
        if (field is null) return null;
        if (!patches.TryGetValue(field.Grid, out var patch)) patches[field.Grid] = patch = GridPatch.About(field.Grid, about);
        return patch is null ? null : new Cut(patch, patch.Cut(field.Values()));
    }
}
