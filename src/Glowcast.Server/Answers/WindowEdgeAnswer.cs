using Glowcast.Engine.Light;

namespace Glowcast.Server.Answers;

/// <summary>One end of a window: what is lit then, what lets the sun in or takes it away, and where its uncertainty comes
/// from, as standard deviations.</summary>
/// <param name="UnknownBeyondM">Where the grid ends towards the sun, if ground past its edge could still matter; else null.</param>
/// <param name="UnknownCouldMoveS">By how much this end would move if ground as high as the highest on that edge of the grid stood right behind it; null where nothing
/// past the edge could matter.</param>
/// <param name="BeyondHeightM">Of the smooth earth that was taken to stand past the edge there; null for nothing, and where it does not matter.</param>
/// <param name="Horizon">What stands towards the sun; null where the day begins or ends.</param>
/// <param name="SunAzimuthDeg">At the ground that comes into the light or leaves it.</param>
/// <param name="HorizonDistanceM">From that ground.</param>
public sealed record WindowEdgeAnswer(
    double LitShare, double? ValleyShare, double TerrainS, double SightLineS, double RefractionS, double? UnknownBeyondM,
    double? UnknownCouldMoveS, double? BeyondHeightM, HorizonKind? Horizon, double? SunAzimuthDeg, double? HorizonDistanceM)
{
    /// <summary>From haze and sky, where what decides is how strong the beam is.</summary>
    public double BeamS { get; init; }

    /// <summary>From what the grid smooths away of slopes, there too.</summary>
    public double FacingS { get; init; }

    public static WindowEdgeAnswer Of(WindowEdge edge)
    {
        ArgumentNullException.ThrowIfNull(edge);
        return new WindowEdgeAnswer(
            edge.RidgeShare, edge.ValleyShare, edge.Uncertainty.TerrainS, edge.Uncertainty.SightLineS, edge.Uncertainty.RefractionS,
            edge.UnknownBeyond?.Metres, edge.Unknown?.CouldMove.TotalSeconds, edge.Unknown?.AssumedHeight?.Metres,
            edge.Horizon?.Kind, edge.Horizon?.SunAzimuth.Degrees, edge.Horizon?.Distance?.Metres)
        {
            BeamS = edge.Uncertainty.BeamS,
            FacingS = edge.Uncertainty.FacingS,
        };
    }
}

/// <summary>How light comes over the ridge, or leaves it.</summary>
/// <param name="From">The side that changes first; none where both do within 45 s.</param>
/// <param name="AcrossS">From one end of the span to the other.</param>
public sealed record SweepAnswer(double FirstDeg, double LastDeg, SweepSide From, double AcrossS)
{
    public static SweepAnswer? Of(LightSweep? sweep) =>
        sweep is null ? null : new SweepAnswer(sweep.First.Degrees, sweep.Last.Degrees, sweep.From, sweep.Across.TotalSeconds);
}

/// <summary>The gap that parts a window from the one before it: the two are one, broken.</summary>
public sealed record BreakAnswer(double LengthS, WindowEdgeCause Cause)
{
    public static BreakAnswer? Of(WindowBreak? gap) => gap is null ? null : new BreakAnswer(gap.Length.TotalSeconds, gap.Cause);
}
