using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>What a tripod or a camera that is not level costs the picture, in pixels of its height.</summary>
/// <remarks>docs/model.md, Capture eq. 14 and 15. The axis of rotation may be tilted in any direction; the horizon then
/// becomes part of a wave, which software straightens at the cost of a crop.</remarks>
public sealed record Levelling
{
    private readonly FrameField field;
    private readonly Angle step;
    private readonly Angle span;

    public Levelling(FrameField field, Angle step, Angle span, Angle levelError)
    {
        (this.field, this.step, this.span) = (field, step, span);
        WavePx = field.FocalLengthPx * levelError.Tan();
    }

    /// <summary>The wave's amplitude: its height above its middle over the full circle.</summary>
    public double WavePx { get; }

    /// <summary>From one end to the other when the axis leans to the side.</summary>
    public double SideSlopePx => 2 * WavePx * (span / 2).Sin();

    /// <summary>From the middle to the ends when the axis leans forward or back.</summary>
    public double BowPx => WavePx * (1 - (span / 2).Cos());

    /// <summary>The most that any lean of this size costs.</summary>
    public double WorstCropPx => 2 * WavePx * (Angle.Min(span, Angle.FromDegrees(180)) / 2).Sin();

    /// <summary>The height left of one row when the camera is rolled about its own axis and the frames form a stair.</summary>
    public double HeightWithRollPx(Angle roll) => (field.PixelsUp / roll.Cos()) - (field.FocalLengthPx * step.Radians * roll.Abs().Tan());
}
