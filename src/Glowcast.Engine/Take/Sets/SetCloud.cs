using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>How far the cloud of a plan moves between neighbours of a set, in the times it was really shot in.</summary>
/// <remarks>docs/model.md, Capture eq. 18.</remarks>
/// <param name="Sideways">In the longest time between neighbours of a row; null for a single column.</param>
/// <param name="BetweenRows">Between a frame and the one above or below it; null for a single row.</param>
public sealed record SetCloud(CloudDrift? Sideways, CloudDrift? BetweenRows)
{
    /// <returns>Null where the plan does not say how fast and how far away the cloud is.</returns>
    public static SetCloud? Of(FoundSet set, SetLayout layout, Plan plan)
    {
        ArgumentNullException.ThrowIfNull(set);
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(plan);
        return plan.Conditions is { CloudSpeedMs: { } speed, CloudDistance: { } distance }
            ? new SetCloud(Drift(layout.Across, set.Pace.LongestSideGap), Drift(layout.Up, set.Pace.LongestVerticalGap))
            : null;

        CloudDrift? Drift(FrameSteps steps, Duration? gap) =>
            gap is { } time ? new CloudDrift(layout.Field, speed, distance, time, layout.Field.FocalLengthPx * (steps.Field - steps.Step).Radians) : null;
    }
}
