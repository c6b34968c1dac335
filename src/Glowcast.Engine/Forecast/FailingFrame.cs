using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

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
