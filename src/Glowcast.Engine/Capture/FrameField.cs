using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>What one frame sees: its angles, and how many pixels an angle gets.</summary>
/// <remarks>docs/model.md, Capture eq. 1. "Horizontal" is along the horizon as the camera is held.</remarks>
public sealed record FrameField
{
    /// <summary>The widest frame laid out; rectilinear lenses end here, what sees more is a fisheye.</summary>
    public static readonly Angle Widest = Angle.FromDegrees(130);

    /// <exception cref="ArgumentException">One frame would see more than <see cref="Widest"/>.</exception>
    public FrameField(Camera camera, Lens lens, Orientation orientation)
    {
        var landscape = orientation == Orientation.Landscape;
        var (sideAcross, sideUp) = landscape
            ? (camera.SensorWidth, camera.SensorHeight)
            : (camera.SensorHeight, camera.SensorWidth);
        (PixelsAcross, PixelsUp) = landscape ? (camera.PixelsWide, camera.PixelsHigh) : (camera.PixelsHigh, camera.PixelsWide);
        HalfWidthTan = sideAcross / lens.FocalLength / 2;
        HalfHeightTan = sideUp / lens.FocalLength / 2;
        FocalLengthPx = lens.FocalLength / sideAcross * PixelsAcross;
        PixelPitch = sideAcross * (1.0 / PixelsAcross);
        RefuseFisheye(lens);
    }

    public Angle Horizontal => Angle.FromRadians(2 * Math.Atan(HalfWidthTan));

    public Angle Vertical => Angle.FromRadians(2 * Math.Atan(HalfHeightTan));

    public int PixelsAcross { get; }

    public int PixelsUp { get; }

    /// <summary>Pixels per radian at the centre of a frame, along the horizon; the scale of the stitched picture.</summary>
    public double FocalLengthPx { get; }

    public Length PixelPitch { get; }

    public double PixelPitchUm => PixelPitch.Millimetres * 1000;

    internal double HalfWidthTan { get; }

    internal double HalfHeightTan { get; }

    private void RefuseFisheye(Lens lens)
    {
        var widest = Angle.Max(Horizontal, Vertical);
        if (widest > Widest)
        {
            throw new ArgumentException(
                $"A focal length of {lens.FocalLength.Millimetres:0.##} mm on this sensor sees {widest.Degrees:0.#}° in one frame; "
                + $"more than {Widest.Degrees:0}° needs a fisheye, and frames are laid out for rectilinear lenses. Take a longer lens.",
                nameof(lens));
        }
    }
}
