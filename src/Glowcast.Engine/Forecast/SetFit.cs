using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Whether the set can be finished in the light.</summary>
public enum Verdict
{
    /// <summary>It fits, with more time to spare than the forecast is uncertain by.</summary>
    Fits,

    /// <summary>It fits, but the time to spare is no longer than the forecast's own uncertainty, or under a minute.</summary>
    Tight,

    /// <summary>There is a window, but no start from which every frame has its light.</summary>
    TooLong,

    /// <summary>There is no window that day.</summary>
    NoLight,
}

/// <summary>Why a frame has no light at its instant.</summary>
public enum FrameProblem
{
    /// <summary>The sun does not reach half of its ridge in this window.</summary>
    RidgeNeverLit,

    RidgeNotYetLit,
    RidgeNoLongerLit,
    ValleyNotYetShaded,
    ValleyLit,
}

/// <summary>The first frame, in the order of shooting, that misses its light.</summary>
/// <param name="Exposure">Which, and when after the start.</param>
/// <param name="Bearing">Where it points.</param>
/// <param name="At">When the shutter would open.</param>
public sealed record FailingFrame(Exposure Exposure, Azimuth Bearing, Instant At, FrameProblem Problem);

/// <summary>The set laid over the light.</summary>
/// <param name="Verdict">In one word.</param>
/// <param name="Margin">By how much the start may slip; negative by how much the set is too long. Null without a window.</param>
/// <param name="EarliestStart">Of the marker frame of the first set; null where it does not fit.</param>
/// <param name="LatestStart">The last moment at which every exposure of every set still has its light.</param>
/// <param name="BestStart">Where to start all the same when it does not fit: the start that loses least.</param>
/// <param name="FirstProblem">From that start; null where it fits.</param>
/// <param name="Uncertainty">Of the window's two ends together, one standard deviation.</param>
public sealed record SetFit(
    Verdict Verdict, Duration? Margin, Instant? EarliestStart, Instant? LatestStart, Instant? BestStart,
    FailingFrame? FirstProblem, Duration Uncertainty)
{
    public static SetFit NoLight { get; } = new(Verdict.NoLight, null, null, null, null, null, Duration.Zero);

    /// <summary>The start with the most safety on both sides whose exposures stay within tolerance; null where it does not fit.</summary>
    public Instant? RecommendedStart { get; init; }

    /// <summary>From arriving at the spot to being ready for the first marker frame.</summary>
    public Duration SetUp { get; init; }

    /// <summary>When to be at the spot for the recommended start; null where it does not fit.</summary>
    public Instant? OnSiteBy => RecommendedStart - SetUp;

    /// <summary>When to be at the spot for the earliest start; null where it does not fit.</summary>
    public Instant? OnSiteForEarliest => EarliestStart - SetUp;

    /// <summary>Of the brightness, from the recommended start, or from the best one where it does not fit; null without a window.</summary>
    public ExposureDrift? Drift { get; init; }

    /// <summary>By how much a start may still slip; negative past the latest one.</summary>
    /// <exception cref="InvalidOperationException">There is no possible start.</exception>
    public Duration MarginFrom(Instant start) =>
        (LatestStart ?? throw new InvalidOperationException("A set that does not fit has no latest start.")) - start;

    public bool IsPossible => Verdict is Verdict.Fits or Verdict.Tight;
}
