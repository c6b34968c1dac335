using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Capture;

/// <summary>What moving cloud does to the seam between two frames.</summary>
public enum DriftEffect
{
    /// <summary>At most 3 pixels: nothing is seen.</summary>
    Clean,

    /// <summary>At most a tenth of the overlap: a seam can be placed in soft cloud.</summary>
    SeamCanBePlaced,

    /// <summary>At most half the overlap: it may be seen.</summary>
    Doubtful,

    /// <summary>More than half the overlap: the cloud is there twice.</summary>
    Ghost,
}

/// <summary>How far a cloud moves across the picture between two frames, against what they share.</summary>
/// <remarks>docs/model.md, Capture eq. 18; the limits are common practice.</remarks>
public sealed record CloudDrift
{
    private const double CleanPx = 3;
    private const double SeamShare = 0.1;
    private const double GhostShare = 0.5;

    /// <param name="speedMs">Across the line of sight, in metres per second.</param>
    /// <param name="overlapPx">What the two frames share, along the drift.</param>
    /// <exception cref="ArgumentOutOfRangeException">The distance is zero or less, or the speed negative or not finite.</exception>
    public CloudDrift(FrameField field, double speedMs, Length distance, Duration gap, double overlapPx)
    {
        if (!(speedMs >= 0 && double.IsFinite(speedMs)))
            throw new ArgumentOutOfRangeException(nameof(speedMs), speedMs, "A speed is a finite number, 0 or more.");
        var distanceM = Sensible.Positive(distance, nameof(distance), "The cloud's distance").Metres;
        Pixels = field.FocalLengthPx * Math.Atan(speedMs * Sensible.NotNegative(gap, nameof(gap)).TotalSeconds / distanceM);
        Effect = Judge(Pixels, overlapPx);
    }

    /// <summary>Between neighbours in a row.</summary>
    public static CloudDrift Sideways(SetLayout layout, SetClock clock, double speedMs, Length distance) =>
        new(layout.Field, speedMs, distance, clock.MaxSideGap, SharedPx(layout.Field, layout.Across));

    /// <summary>Between a frame and the one above or below it, at its worst; the frames share their whole width there.</summary>
    public static CloudDrift BetweenRows(SetLayout layout, SetClock clock, double speedMs, Length distance) =>
        new(layout.Field, speedMs, distance, clock.MaxVerticalGap, SharedPx(layout.Field, layout.Up));

    public double Pixels { get; }

    public DriftEffect Effect { get; }

    private static double SharedPx(FrameField field, FrameSteps steps) => field.FocalLengthPx * (steps.Field - steps.Step).Radians;

    private static DriftEffect Judge(double pixels, double overlapPx) =>
        pixels <= CleanPx ? DriftEffect.Clean
        : pixels <= SeamShare * overlapPx ? DriftEffect.SeamCanBePlaced
        : pixels <= GhostShare * overlapPx ? DriftEffect.Doubtful
        : DriftEffect.Ghost;
}
