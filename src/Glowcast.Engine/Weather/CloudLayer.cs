using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>How high a layer of cloud lies, as weather services part the sky.</summary>
public enum CloudLevel
{
    Low,
    Middle,
    High,
}

/// <summary>A layer of cloud somewhere between ridge and sun.</summary>
/// <param name="Cover">Share of the sky, 0 to 1.</param>
/// <param name="Base">Above the grid's vertical datum.</param>
/// <param name="Top">Null where it is not known: the layer then counts as a sheet.</param>
public sealed record CloudLayer(CloudLevel Level, double Cover, Length Base, Length? Top)
{
    internal Length TopOrBase => Top ?? Base;
}
