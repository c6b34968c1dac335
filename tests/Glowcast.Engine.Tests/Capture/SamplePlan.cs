using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Capture;

/// <summary>A 36 × 24 mm body upright, 135 mm at f/11, over 245° to 330° in two rows; everything else as by default.</summary>
internal static class SamplePlan
{
    public static readonly Camera Body = new(Length.FromMillimetres(36), Length.FromMillimetres(24), 8256, 5504);

    public static readonly Lens Lens = new(Length.FromMillimetres(135), 11);

    public static readonly Picture Picture = new(BearingSpan.FromDegrees(245, 330), Angle.FromDegrees(12), Angle.Zero);

    public static readonly SetSettings Settings = new() { Rows = 2 };

    public static SetLayout Layout => new(Body, Lens, Settings, Picture);
}
