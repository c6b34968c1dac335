using NodaTime;

namespace Glowcast.Engine.Sky;

/// <summary>Whether a body passes an altitude in a stretch of time; if not, on which side of it it stays.</summary>
public enum SkyStatus
{
    Events,
    AlwaysAbove,
    AlwaysBelow,
}

/// <summary>When a body passes an altitude. Either list may hold none, one or more: a day near the polar circle can have
/// two settings, or a setting and no rising.</summary>
public sealed record ThresholdCrossings(SkyStatus Status, IReadOnlyList<Instant> Risings, IReadOnlyList<Instant> Settings)
{
    internal static ThresholdCrossings Of(TimeCurve altitudeDeg, double thresholdDeg)
    {
        var crossings = altitudeDeg.Crossings(thresholdDeg);
        var status = crossings.Count > 0 ? SkyStatus.Events
            : altitudeDeg.Lowest >= thresholdDeg ? SkyStatus.AlwaysAbove : SkyStatus.AlwaysBelow;
        return new ThresholdCrossings(
            status, [.. crossings.Where(c => c.Upward).Select(c => c.At)], [.. crossings.Where(c => !c.Upward).Select(c => c.At)]);
    }
}
