using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>Equal turns of the camera along one axis, and what the frames cover between their outer edges.</summary>
/// <remarks>docs/model.md, Capture eq. 2 to 4. Immutable.</remarks>
public sealed record FrameSteps
{
    private const double ExactFitDeg = 1e-9;
    private const double FullCircleDeg = 360;
    private const int Most = 5000;

    private FrameSteps(Angle field, Angle step, int count, bool closed) =>
        (Field, Step, Count, Closed) = (field, step, count, closed);

    /// <summary>What one frame sees along this axis.</summary>
    public Angle Field { get; }

    /// <summary>The turn from one frame to the next.</summary>
    public Angle Step { get; }

    public int Count { get; }

    /// <summary>The frames go round the full circle and the last one meets the first.</summary>
    public bool Closed { get; }

    /// <summary>Between the outer edges; at most the full circle.</summary>
    public Angle Covered => Closed ? Angle.FromDegrees(FullCircleDeg) : AtMostRound(Field + (Step * (Count - 1)));

    /// <summary>The share of a frame that its neighbour repeats, in angle.</summary>
    public double Overlap => 1 - (Step / Field);

    /// <summary>The fewest frames that reach across <paramref name="span"/>; an exact fit stays exact.</summary>
    /// <exception cref="ArgumentException">More frames than a set can be.</exception>
    public static FrameSteps Reaching(Angle span, Angle field, double overlap) =>
        Of(Fewest(span.Degrees, field.Degrees, overlap), field, overlap);

    /// <summary>As many frames as were asked for.</summary>
    /// <exception cref="ArgumentException">Less than one frame, or more than a set can be.</exception>
    public static FrameSteps Of(int count, Angle field, double overlap)
    {
        Sensible.AtLeast(1, count, nameof(count), "The number of frames");
        if (count > Most) throw TooMany(count);
        var step = field * (1 - Sensible.Overlap(overlap, nameof(overlap)));
        var closed = GoesRound(step, count);
        return new FrameSteps(field, closed ? Angle.FromDegrees(FullCircleDeg / count) : step, count, closed);
    }

    /// <summary>The same steps, with this many frames more.</summary>
    internal FrameSteps Longer(int more) => new(Field, Step, Count + more, GoesRound(Step, Count + more));

    internal static Angle AtMostRound(Angle angle) => Angle.Min(angle, Angle.FromDegrees(FullCircleDeg));

    /// <summary>How far from the middle of <paramref name="count"/> frames the one at <paramref name="index"/> points.</summary>
    internal Angle Offset(int index, int count) => Step * (index - ((count - 1) / 2.0));

    private static bool GoesRound(Angle step, int count) => step.Degrees * count >= FullCircleDeg - ExactFitDeg;

    private static int Fewest(double spanDeg, double fieldDeg, double overlap)
    {
        var stepDeg = fieldDeg * (1 - Sensible.Overlap(overlap, nameof(overlap)));
        if (spanDeg <= fieldDeg + ExactFitDeg) return 1;
        // A full circle has no ends: every frame, the last one too, needs its step.
        var steps = spanDeg >= FullCircleDeg - ExactFitDeg ? FullCircleDeg / stepDeg : 1 + ((spanDeg - fieldDeg) / stepDeg);
        var fewest = Math.Ceiling(steps - ExactFitDeg);
        return fewest <= Most ? (int)fewest : throw TooMany(fewest);
    }

    private static ArgumentException TooMany(double count) =>
        new($"{count:0} frames side by side are more than a set can be ({Most} at most); take less overlap or a shorter lens.");
}
