using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>One picture that a day offers: a window of one kind, and how the set lies in it.</summary>
/// <param name="Fit">From its own best start; null where no set is asked for.</param>
public sealed record PictureOfDay(LightWindow Window, SetFit? Fit)
{
    public PictureKind Kind => Window.Kind;
}
