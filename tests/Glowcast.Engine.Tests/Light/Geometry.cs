using Glowcast.Engine.Light;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Thresholds by which ground is lit as soon as the sun reaches it and it faces the sun: for tests of where the light falls, not of how bright it is.</summary>
internal static class Geometry
{
    public static LightThresholds Alone { get; } = LightThresholds.Usual with { LitStops = 1e-6, CrestLit = 0.6 };
}
