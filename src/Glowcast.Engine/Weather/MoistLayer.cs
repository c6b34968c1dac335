using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>A layer moist enough for cloud.</summary>
/// <param name="LeastDepressionC">The least dew-point depression of its levels.</param>
/// <param name="IsAtGround">It begins at the ground.</param>
/// <param name="IsOpen">It goes on above the levels looked at; its top is that of the last of them.</param>
/// <param name="SaturatedFrom">Where the depression first is 1 °C or less; null where it nowhere is.</param>
public sealed record MoistLayer(Length Base, Length Top, double LeastDepressionC, bool IsAtGround, bool IsOpen, Length? SaturatedFrom)
{
    public Length Thickness => Top - Base;
}
