using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>What opens or closes a window of light.</summary>
public enum WindowEdgeCause
{
    /// <summary>Enough of the ridge comes into the sun.</summary>
    RidgeLit,

    /// <summary>Too much of the ridge leaves the sun.</summary>
    RidgeShaded,

    /// <summary>The sun reaches too much of the valley.</summary>
    ValleyLit,

    /// <summary>Enough of the valley falls into shade.</summary>
    ValleyShaded,

    /// <summary>The day begins or ends within the window.</summary>
    DayEnds,
}

/// <summary>Where the sun stands against the direction of view.</summary>
public enum LightDirection
{
    /// <summary>From behind the camera: the sun more than 120° from the view.</summary>
    Front,

    /// <summary>Between: the light that models a ridge.</summary>
    Side,

    /// <summary>Towards the camera: the sun less than 60° from the view.</summary>
    Back,
}

/// <summary>One end of a window.</summary>
/// <param name="At">The moment.</param>
/// <param name="Uncertainty">Of the moment, one standard deviation.</param>
/// <param name="UnknownBeyond">Where the grid ends towards the sun, if ground past its edge could still matter; else null.</param>
/// <param name="RidgeShare">Share of the ridge's columns lit then.</param>
/// <param name="ValleyShare">Share of the visible valley lit then; null where none is visible.</param>
public sealed record WindowEdge(Instant At, WindowEdgeCause Cause, TimingUncertainty Uncertainty, Length? UnknownBeyond, double RidgeShare, double? ValleyShare);

/// <summary>A stretch of time in which the ridge is lit and the valley in shade: start included, end excluded.</summary>
/// <param name="SunAzimuth">True bearing of the sun at the lookout in the middle of the window.</param>
/// <param name="SunAltitude">Its apparent altitude there.</param>
/// <param name="SunFromView">Between the middle of the span and the sun, along the horizon.</param>
/// <param name="SunInSpan">The sun stands within the span at some time of the window: it would shine into the lens.</param>
public sealed record LightWindow(
    WindowEdge Start, WindowEdge End, double RidgeShareInMiddle, double? ValleyShareInMiddle,
    Azimuth SunAzimuth, Angle SunAltitude, Angle SunFromView, bool SunInSpan)
{
    public Duration Length => End.At - Start.At;

    public LightDirection Direction => SunFromView.Degrees switch
    {
        < 60 => LightDirection.Back,
        > 120 => LightDirection.Front,
        _ => LightDirection.Side,
    };
}
