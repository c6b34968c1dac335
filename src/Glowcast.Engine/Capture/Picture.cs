using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>What the print is to show: where its middle looks, and how wide and how high it is.</summary>
public sealed record Picture
{
    /// <param name="centre">The bearing of the middle.</param>
    /// <param name="horizontal">In (0°, 360°].</param>
    /// <param name="vertical">In (0°, 180°).</param>
    /// <param name="centrePitch">The altitude the middle of the rows looks at; above the horizontal positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">An angle lies outside these bounds.</exception>
    public Picture(Azimuth centre, Angle horizontal, Angle vertical, Angle centrePitch)
    {
        if (!(horizontal.Degrees is > 0 and <= 360))
            throw new ArgumentOutOfRangeException(nameof(horizontal), horizontal, "A picture is wider than 0° and at most 360° wide.");
        if (!(vertical.Degrees is > 0 and < 180))
            throw new ArgumentOutOfRangeException(nameof(vertical), vertical, "A picture is higher than 0° and less than 180° high.");
        if (centrePitch.Abs().Degrees >= 90)
            throw new ArgumentOutOfRangeException(nameof(centrePitch), centrePitch, "The middle must lie between the nadir and the zenith.");
        (Centre, Horizontal, Vertical, CentrePitch) = (centre, horizontal, vertical, centrePitch);
    }

    /// <inheritdoc cref="Picture(Azimuth, Angle, Angle, Angle)"/>
    public Picture(BearingSpan span, Angle vertical, Angle centrePitch) : this(span.Centre, span.Width, vertical, centrePitch)
    {
    }

    public Azimuth Centre { get; }

    public Angle Horizontal { get; }

    public Angle Vertical { get; }

    public Angle CentrePitch { get; }
}
