using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>The light on the ridge at one moment of a window, and how fast it changes then.</summary>
/// <param name="UncertaintyStops">Of the brightness, one standard deviation: haze and the formula for the sky.</param>
public readonly record struct RidgeMoment(Instant At, RidgeLight Light, BrightnessRate Rate, double UncertaintyStops)
{
    private static readonly Duration HalfMinute = Duration.FromSeconds(30);

    internal static RidgeMoment Of(RidgeBrightness ridge, Instant at) =>
        new(at, ridge.At(at), ridge.RateBetween(at - HalfMinute, at + HalfMinute), ridge.UncertaintyStopsAt(at));
}

/// <summary>Brightness and colour of the lit ridge through a window.</summary>
/// <param name="Rate">The mean from its start to its end.</param>
public sealed record WindowBrightness(RidgeMoment Start, RidgeMoment Middle, RidgeMoment End, BrightnessRate Rate)
{
    public static WindowBrightness Of(RidgeBrightness ridge, LightWindow window)
    {
        ArgumentNullException.ThrowIfNull(ridge);
        ArgumentNullException.ThrowIfNull(window);
        var (start, end) = (window.Start.At, window.End.At);
        return new WindowBrightness(
            RidgeMoment.Of(ridge, start), RidgeMoment.Of(ridge, start + (window.Length / 2)), RidgeMoment.Of(ridge, end), ridge.RateBetween(start, end));
    }
}
