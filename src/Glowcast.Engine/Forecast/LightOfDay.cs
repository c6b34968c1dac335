using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>What a set is laid over.</summary>
/// <param name="Ridge">How bright the lit ridge is through the day.</param>
/// <param name="ToleranceStops">How far that may drift from the first frame of a set to its last.</param>
internal sealed record LightOfDay(LightChart Chart, IReadOnlyList<LightWindow> Windows, RidgeBrightness Ridge, double ToleranceStops);
