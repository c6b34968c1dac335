using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>A stop of the user's rotator, and the overlap that turning by it gives.</summary>
/// <remarks>docs/model.md, Capture eq. 27. To shoot with it, lay the set out again with this overlap.</remarks>
public sealed record ClickStop(Angle Turn, double Overlap)
{
    /// <summary>The stop nearest to the wanted step; of two equally near the smaller, which overlaps more.</summary>
    /// <returns>Nothing when every stop would leave a gap between frames.</returns>
    /// <exception cref="ArgumentException">No stop was given, or one is zero or less.</exception>
    public static ClickStop? Nearest(IReadOnlyCollection<Angle> stops, FrameSteps wanted) =>
        Meeting(stops, wanted).OrderBy(stop => (stop.Turn - wanted.Step).Abs()).ThenBy(stop => stop.Turn).FirstOrDefault();

    /// <summary>The widest stop that overlaps at least as much as wanted.</summary>
    /// <returns>Nothing when every stop is wider than the wanted step.</returns>
    /// <inheritdoc cref="Nearest"/>
    public static ClickStop? KeepingOverlap(IReadOnlyCollection<Angle> stops, FrameSteps wanted) =>
        Meeting(stops, wanted).Where(stop => stop.Overlap >= wanted.Overlap - 1e-12).MaxBy(stop => stop.Turn);

    private static IEnumerable<ClickStop> Meeting(IReadOnlyCollection<Angle> stops, FrameSteps wanted)
    {
        if (stops.Count == 0) throw new ArgumentException("A rotator has at least one stop.", nameof(stops));
        if (stops.Any(stop => stop <= Angle.Zero)) throw new ArgumentException("A stop turns by more than zero.", nameof(stops));
        return stops.Where(stop => stop <= wanted.Field).Select(stop => new ClickStop(stop, 1 - (stop / wanted.Field)));
    }
}
