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

    /// <summary>The first tips of the crest come into the light.</summary>
    TipsLit,

    /// <summary>The last tips lose it.</summary>
    TipsShaded,

    /// <summary>Half of the crest is lit: from then on, or until then, it is more than tips.</summary>
    HalfLit,

    /// <summary>The sun reaches enough of the sea of cloud.</summary>
    DeckLit,

    /// <summary>Enough of the sea of cloud lies in shade.</summary>
    DeckShaded,

    /// <summary>The sun's edge stands on the level horizon of the ridge.</summary>
    SunOnHorizon,

    /// <summary>The sun stands 6° below the horizontal: civil twilight begins or ends.</summary>
    CivilTwilight,

    /// <summary>The moon comes up or goes down, or the sky grows too bright for it.</summary>
    MoonlitNight,
}

/// <summary>Which way the sun goes.</summary>
public enum DayHalf
{
    /// <summary>It climbs.</summary>
    Morning,

    /// <summary>It sinks.</summary>
    Evening,
}

/// <summary>A gap that parts a window from the one before it, so short that the two are one window, broken.</summary>
/// <param name="Length">Under half an hour.</param>
/// <param name="Cause">What ended the window before it.</param>
public sealed record WindowBreak(Duration Length, WindowEdgeCause Cause);

/// <summary>One end of a window.</summary>
/// <param name="At">The moment.</param>
/// <param name="Uncertainty">Of the moment, one standard deviation.</param>
/// <param name="Unknown">Ground past the edge of the grid that could still matter; null where none could.</param>
/// <param name="RidgeShare">Share of the ridge's columns lit then.</param>
/// <param name="ValleyShare">Share of the visible valley lit then; null where none is visible.</param>
public sealed record WindowEdge(Instant At, WindowEdgeCause Cause, TimingUncertainty Uncertainty, UnknownGround? Unknown, double RidgeShare, double? ValleyShare)
{
    /// <summary>What stands towards the sun then; null where the day begins or ends.</summary>
    public EdgeHorizon? Horizon { get; init; }

    /// <summary>Where the grid ends towards the sun, if ground past its edge could still matter; else null.</summary>
    public Length? UnknownBeyond => Unknown?.Distance;
}

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

    public Instant Middle => Start.At + (Length / 2);

    public LightDirection Direction => LightDirections.Of(SunFromView);

    /// <summary>Whose light it is; where it is the moon's, bearing, altitude and what follows of them are the moon's.</summary>
    public LightSource Source { get; init; }

    public DayHalf Half { get; init; }

    /// <summary>Which kind of picture it is for.</summary>
    public PictureKind Kind { get; init; }

    /// <summary>The share of the picture's ridge that it lights at some time: what the window is about, 0 to 1.</summary>
    public double PictureShare { get; init; } = 1;

    /// <summary>By how many stops direct light lifts what counts as lit.</summary>
    public double LitStops { get; init; }

    /// <summary>Bearings of the ridge that it does not light.</summary>
    public IReadOnlyList<UnlitBearings> Unlit { get; init; } = [];

    /// <summary>What gives the picture its dark in the middle of the window.</summary>
    public DarkGround Dark { get; init; }

    /// <summary>Where the grid ends towards the sun, the nearer of both ends, if ground past its edge could matter; else null.</summary>
    public Length? UnknownBeyond => new[] { Start.UnknownBeyond, End.UnknownBeyond }.Min();

    /// <summary>By how much ground past the edge of the grid could move the end that it could move most; zero where none could move either.</summary>
    public Duration UnknownCouldMove => Duration.Max(Start.Unknown?.CouldMove ?? Duration.Zero, End.Unknown?.CouldMove ?? Duration.Zero);

    /// <summary>Null where the window stands alone, and for the first part of a broken one.</summary>
    public WindowBreak? BreakBefore { get; init; }

    /// <summary>How the ridge comes into the light of this window; null where it does so on one side of the span only.</summary>
    public LightSweep? Gains { get; init; }

    /// <summary>How it leaves it.</summary>
    public LightSweep? Loses { get; init; }

    /// <summary>How the picture reads in the middle of the window; null where it was not worked out.</summary>
    public PictureLight? Picture { get; init; }

    /// <summary>How high the earth's shadow stands over the span in the middle of a twilight, where it stands highest there; null at other times and on the sun's side.</summary>
    public Angle? EarthShadowTop { get; init; }

    /// <summary>What the camera makes of it; null where that was not worked out.</summary>
    public WindowTones? Tones { get; init; }

    /// <summary>The ridge cannot be told from the sky behind it; no fit of a set mends that.</summary>
    public bool IsRidgeUnseen => Tones?.Ridge is { IsSeen: false };
}
