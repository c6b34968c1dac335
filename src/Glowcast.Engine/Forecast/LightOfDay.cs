using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>What a set is laid over.</summary>
/// <param name="Ridge">How bright the lit ridge is through the day.</param>
internal sealed record LightOfDay(LightChart Chart, IReadOnlyList<LightWindow> Windows, RidgeBrightness Ridge, SetWishes Wishes)
{
    public EdgeDoubts Doubts { get; } = EdgeDoubts.Of(Chart);
}
