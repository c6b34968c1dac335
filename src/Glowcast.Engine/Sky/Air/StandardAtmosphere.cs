using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>The US Standard Atmosphere 1976 (NOAA-S/T 76-1562), dry, from below the sea up to 84.852 km geopotential
/// (86 km); the lowest layer is carried on below sea level.</summary>
internal static class StandardAtmosphere
{
    internal const double SeaLevelPressureHPa = 1013.25;

    /// <summary>The radius that turns geometric into geopotential height in the 1976 standard.</summary>
    private const double GeopotentialRadiusM = 6_356_766;

    internal static double TopM { get; } = GeometricM(84_852);

    internal static IReadOnlyList<AtmosphereLayer> Layers { get; } = Stack(
        [(0, -0.0065), (11_000, 0), (20_000, 0.001), (32_000, 0.0028), (47_000, 0), (51_000, -0.0028), (71_000, -0.002)]);

    public static double TemperatureK(Length height)
    {
        var geopotentialM = GeopotentialM(height.Metres);
        return LayerAt(geopotentialM).TemperatureK(geopotentialM);
    }

    public static double PressureHPa(Length height)
    {
        var geopotentialM = GeopotentialM(height.Metres);
        return LayerAt(geopotentialM).PressureHPa(geopotentialM);
    }

    internal static double GeopotentialM(double heightM) => GeopotentialRadiusM * heightM / (GeopotentialRadiusM + heightM);

    internal static double GeometricM(double geopotentialM) =>
        GeopotentialRadiusM * geopotentialM / (GeopotentialRadiusM - geopotentialM);

    /// <summary>d(geopotential)/d(geometric).</summary>
    internal static double GeopotentialSlope(double heightM)
    {
        var ratio = GeopotentialRadiusM / (GeopotentialRadiusM + heightM);
        return ratio * ratio;
    }

    internal static AtmosphereLayer LayerAt(double geopotentialM) =>
        Layers.LastOrDefault(layer => layer.BaseM <= geopotentialM, Layers[0]);

    private static List<AtmosphereLayer> Stack((double BaseM, double LapseKPerM)[] steps)
    {
        var layers = new List<AtmosphereLayer> { new(steps[0].BaseM, steps[0].LapseKPerM, 288.15, SeaLevelPressureHPa) };
        foreach (var (baseM, lapse) in steps.Skip(1))
        {
            var below = layers[^1];
            layers.Add(new AtmosphereLayer(baseM, lapse, below.TemperatureK(baseM), below.PressureHPa(baseM)));
        }
        return layers;
    }
}
