using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>How near things shift against far ones when the camera turns about a point beside the no-parallax point.</summary>
/// <remarks>docs/model.md, Capture eq. 13. The no-parallax point is the entrance pupil; it moves with zoom and focus.</remarks>
public sealed record Parallax
{
    private readonly double focalPx;
    private readonly double chordM;

    /// <param name="pupilOffset">From the axis of rotation to the no-parallax point.</param>
    public Parallax(FrameField field, Angle step, Length pupilOffset)
    {
        focalPx = field.FocalLengthPx;
        chordM = 2 * Sensible.NotNegative(pupilOffset, nameof(pupilOffset), "The pupil's offset").Metres * (step / 2).Sin();
    }

    /// <summary>From here on the shift stays under one pixel against anything farther: no rail is needed.</summary>
    public Length FreeFrom => Length.FromMetres(focalPx * chordM);

    /// <summary>Pixels between two neighbouring frames.</summary>
    /// <param name="background">None: infinitely far.</param>
    /// <exception cref="ArgumentOutOfRangeException">A distance is zero or less.</exception>
    public double ShiftPx(Length near, Length? background = null)
    {
        var nearM = Sensible.Positive(near, nameof(near), "The distance of the near thing").Metres;
        var farPerM = background is { } far ? 1 / Sensible.Positive(far, nameof(background), "The distance of the background").Metres : 0;
        return focalPx * chordM * ((1 / nearM) - farPerM);
    }

    /// <summary>Whether ground at that distance can be stitched without moving the camera on a rail.</summary>
    public bool NoRailFor(Length nearestGround) => nearestGround >= FreeFrom;
}
