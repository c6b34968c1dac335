using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>One frame of a set: where the camera points, and which directions it sees.</summary>
/// <remarks>Row 0 is the topmost row, column 0 the leftmost; spare frames are counted among the columns. A rectilinear
/// frame of a camera whose axis of rotation is vertical (docs/model.md, Capture eq. 5 and 6).</remarks>
public sealed class Frame
{
    private const double OnTheEdge = 1e-12;
    private readonly double halfWidthTan;
    private readonly double halfHeightTan;
    private readonly double sinPitch;
    private readonly double cosPitch;

    public Frame(FrameField field, int row, int column, Azimuth bearing, Angle pitch, bool spare)
    {
        (Row, Column, Bearing, Pitch, Spare) = (row, column, bearing, pitch, spare);
        (halfWidthTan, halfHeightTan) = (field.HalfWidthTan, field.HalfHeightTan);
        (sinPitch, cosPitch) = (pitch.Sin(), pitch.Cos());
    }

    public int Row { get; }

    public int Column { get; }

    public Azimuth Bearing { get; }

    /// <summary>The altitude of the frame's centre.</summary>
    public Angle Pitch { get; }

    /// <summary>Shot beyond the end of the picture, for safety.</summary>
    public bool Spare { get; }

    /// <summary>Whether the frame sees that direction; its edges belong to it.</summary>
    public bool Covers(Azimuth bearing, Angle altitude)
    {
        var turn = Bearing.TurnTo(bearing);
        var level = altitude.Cos() * turn.Cos();
        var up = altitude.Sin();
        var ahead = (level * cosPitch) + (up * sinPitch);
        return ahead > 0
            && Math.Abs(altitude.Cos() * turn.Sin()) <= ahead * (halfWidthTan + OnTheEdge)
            && Math.Abs((up * cosPitch) - (level * sinPitch)) <= ahead * (halfHeightTan + OnTheEdge);
    }

    /// <summary>The direction seen at a place in the frame.</summary>
    /// <param name="across">−1 at the left edge, 1 at the right.</param>
    /// <param name="up">−1 at the bottom edge, 1 at the top.</param>
    public FramePoint PointAt(double across, double up)
    {
        var (u, v) = (across * halfWidthTan, up * halfHeightTan);
        var level = cosPitch - (v * sinPitch);
        var height = sinPitch + (v * cosPitch);
        var turn = Angle.FromRadians(Math.Atan2(u, level));
        return new FramePoint(turn, Bearing + turn, Angle.FromRadians(Math.Atan2(height, Math.Sqrt((u * u) + (level * level)))));
    }
}

/// <summary>A direction seen in a frame.</summary>
/// <param name="Turn">From the frame's axis, clockwise positive.</param>
public readonly record struct FramePoint(Angle Turn, Azimuth Bearing, Angle Altitude);
