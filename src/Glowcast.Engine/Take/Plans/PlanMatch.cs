using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>Holds frames of one camera to the plan they are said to be shot by.</summary>
/// <remarks>docs/model.md, Take eq. 23. The limits are common practice, without a source.</remarks>
internal static class PlanMatch
{
    private const double SameFocal = 0.05;
    private const double SameShape = 0.04;
    private const double SameOverlap = 0.2;
    private const int SameDay = 1; // a shoot goes past midnight, and clocks are set to another zone
    private static readonly Length SamePlace = Length.FromKilometres(2);

    /// <param name="frames">Those of a set.</param>
    public static IEnumerable<PlanMismatch> Of(IReadOnlyList<ShotFrame> frames, TakePlan plan, CameraClock? clock)
    {
        if (frames.Count == 0) yield break;
        var camera = frames[0].Camera;
        if (plan.FocalLength is { } lens && Median(frames.Select(frame => frame.Settings.FocalLength?.Millimetres)) is { } mm && Math.Abs((mm / lens.Millimetres) - 1) > SameFocal)
            yield return new PlanMismatch(MismatchKind.Lens, camera, lens.Millimetres, mm);
        if (plan.Orientation is { } held && Median(frames.Select(IsPortrait)) is { } portrait && portrait != (held == Orientation.Portrait ? 1 : 0))
            yield return new PlanMismatch(MismatchKind.Orientation, camera, held == Orientation.Portrait ? 1 : 0, portrait);
        if (plan.Shape is { } shape && Median(frames.Select(ShapeOf)) is { } own && Math.Abs((own / shape) - 1) > SameShape)
            yield return new PlanMismatch(MismatchKind.Camera, camera, shape, own);
        if (plan.Date is { } date && DayOf(frames[0], clock) is { } day && Period.DaysBetween(date, day) is var late && Math.Abs(late) > SameDay)
            yield return new PlanMismatch(MismatchKind.Day, camera, 0, late);
        if (plan.Place is { } place && Median(frames.Select(frame => frame.Place is { } at ? Geodesic.Between(place, at).Distance.Metres : (double?)null)) is { } metres && metres > SamePlace.Metres)
            yield return new PlanMismatch(MismatchKind.Place, camera, 0, metres);
    }

    /// <param name="step">From frame to neighbour, in widths of a frame; as seen in the pictures.</param>
    public static PlanMismatch? OfOverlap(string camera, TakePlan plan, double step) =>
        Math.Abs(1 - step - plan.Overlap) > SameOverlap ? new PlanMismatch(MismatchKind.Overlap, camera, plan.Overlap, 1 - step) : null;

    // A wrong clock is told by the user; until then the day is that of the camera.
    private static LocalDate? DayOf(ShotFrame frame, CameraClock? clock) => clock?.Witnessed(frame)?.InUtc().Date ?? frame.Taken?.Date;

    // As it is seen; where the file does not say how it lies, as it is stored.
    private static double? IsPortrait(ShotFrame frame) => frame.Settings is { PixelsWide: { } wide, PixelsHigh: { } high } && wide != high
        ? (high > wide) ^ (frame.Settings.Lie >= 5) ? 1 : 0
        : frame.Settings.Lie is { } lie ? (lie >= 5 ? 1 : 0) : null;

    private static double? ShapeOf(ShotFrame frame) => frame.Settings is { PixelsWide: { } wide, PixelsHigh: { } high } ? (double)Math.Max(wide, high) / Math.Min(wide, high) : null;

    private static double? Median(IEnumerable<double?> values)
    {
        var known = values.OfType<double>().Order().ToList();
        return known.Count == 0 ? null : known[known.Count / 2];
    }
}
