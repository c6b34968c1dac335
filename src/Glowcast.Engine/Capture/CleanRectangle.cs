using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>The largest upright rectangle of the stitched cylinder that has picture everywhere.</summary>
/// <remarks>docs/model.md, Capture eq. 7 and 8. Pixels are those of the stitched cylinder (X = f θ, Y = f tan φ with f the
/// focal length in pixels), measured up from the horizon.</remarks>
/// <param name="Width">As an angle along the horizon.</param>
/// <param name="BottomPx">Below the horizon negative.</param>
/// <param name="TopPx">Below the horizon negative.</param>
public sealed record CleanRectangle(Angle Width, double WidthPx, double BottomPx, double TopPx, Angle Bottom, Angle Top)
{
    public double HeightPx => TopPx - BottomPx;

    public double Megapixels => WidthPx * HeightPx / 1e6;

    /// <summary>The altitude between bottom and top.</summary>
    public Angle Height => Top - Bottom;

    /// <summary>As wide as the frames allow, cut to the height they have at the outer ends.</summary>
    internal static CleanRectangle Full(FrameField field, FrameSteps across, IReadOnlyList<Angle> pitches)
    {
        var end = across.Closed ? across.Step / 2 : SideEdge(field, pitches);
        return Within(field, across, pitches, end);
    }

    /// <summary>Cut at the ends to where the height is no less than it is between two frames; the one to plan with.</summary>
    internal static CleanRectangle Trimmed(FrameField field, FrameSteps across, IReadOnlyList<Angle> pitches)
    {
        var end = across.Count == 1 ? SideEdge(field, pitches) : across.Step / 2;
        return Within(field, across, pitches, end);
    }

    /// <summary>How far to the side every row reaches over its whole height.</summary>
    internal static Angle SideEdge(FrameField field, IReadOnlyList<Angle> pitches)
    {
        // The edge of a pitched frame stands nearest its axis where cos p − v sin p is largest.
        var farthest = pitches.Max(pitch => pitch.Cos() + (field.HalfHeightTan * Math.Abs(pitch.Sin())));
        return Angle.FromRadians(Math.Atan(field.HalfWidthTan / farthest));
    }

    private static CleanRectangle Within(FrameField field, FrameSteps across, IReadOnlyList<Angle> pitches, Angle end)
    {
        var top = Cut((pitches.Max() + (field.Vertical / 2)).Tan(), end);
        var bottom = -Cut(-(pitches.Min() - (field.Vertical / 2)).Tan(), end);
        var width = across.Closed ? across.Covered : FrameSteps.AtMostRound((across.Step * (across.Count - 1)) + (end * 2));
        return new CleanRectangle(
            width, field.FocalLengthPx * width.Radians, field.FocalLengthPx * bottom, field.FocalLengthPx * top,
            Angle.FromRadians(Math.Atan(bottom)), Angle.FromRadians(Math.Atan(top)));
    }

    // The edge is the curve tan φ = tan(edge) cos Δ: away from the axis it comes nearer the horizon, which costs height
    // only on the side of the horizon where the edge lies.
    private static double Cut(double edgeTan, Angle end) => edgeTan > 0 ? edgeTan * end.Cos() : edgeTan;
}
