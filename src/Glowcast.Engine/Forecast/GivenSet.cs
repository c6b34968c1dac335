using Glowcast.Engine.Capture;

namespace Glowcast.Engine.Forecast;

/// <summary>What a plan says about its set.</summary>
/// <param name="Settings">Null after a fault.</param>
/// <param name="ChooseDirection">Whether the direction is left open.</param>
/// <param name="StartAt">When to begin; null where that is left open.</param>
/// <param name="ChooseExposure">Whether the exposure is left open.</param>
/// <param name="HighlightMarginStops">How far the brightest lit ground is kept under clipping by the exposure that the light asks for.</param>
internal sealed record GivenSet(
    SetSettings? Settings, bool ChooseDirection, StartWish? StartAt, bool ChooseExposure, double Iso, double HighlightMarginStops);
