using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>How much of what one pixel could show diffraction takes away.</summary>
public enum Diffraction
{
    Unseen,

    /// <summary>At 100 %: the Airy disc is wider than 2.5 pixels.</summary>
    Noticeable,

    /// <summary>The Airy disc is wider than 4 pixels.</summary>
    Strong,
}

/// <summary>What is sharp: limits of focus judged by the pixel, and the spread of light at the aperture.</summary>
/// <remarks>docs/model.md, Capture eq. 10 to 12. The circle of confusion is two pixels, not the small-print convention.</remarks>
public sealed record Sharpness
{
    private const double WavelengthUm = 0.55;
    private const double CircleInPixels = 2;
    private const double NoticeableFromPixels = 2.5;
    private const double StrongFromPixels = 4;
    private readonly double focalM;
    private readonly double pixelM;

    public Sharpness(FrameField field, Lens lens)
    {
        focalM = lens.FocalLength.Metres;
        pixelM = field.PixelPitch.Metres;
        AiryDiameterUm = 2.44 * WavelengthUm * lens.Aperture;
        HyperfocalM = (focalM * focalM / (lens.Aperture * CircleInPixels * pixelM)) + focalM;
    }

    public Length CircleOfConfusion => Length.FromMetres(CircleInPixels * pixelM);

    public Length Hyperfocal => Length.FromMetres(HyperfocalM);

    /// <summary>Of green light, 0.55 µm, to the first dark ring.</summary>
    public double AiryDiameterUm { get; }

    public double AiryInPixels => AiryDiameterUm / (pixelM * 1e6);

    public Diffraction Diffraction => AiryInPixels switch
    {
        > StrongFromPixels => Diffraction.Strong,
        > NoticeableFromPixels => Diffraction.Noticeable,
        _ => Diffraction.Unseen,
    };

    /// <summary>The nearest sharp distance when focused at infinity, as for a far ridge.</summary>
    public Length NearLimit => Length.FromMetres(HyperfocalM - focalM);

    private double HyperfocalM { get; }

    /// <summary>The nearest sharp distance when focused at <paramref name="focus"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The focus is not beyond the focal length.</exception>
    public Length NearLimitAt(Length focus)
    {
        var s = BeyondLens(focus);
        return Length.FromMetres(s * (HyperfocalM - focalM) / (HyperfocalM + s - (2 * focalM)));
    }

    /// <summary>The farthest sharp distance when focused at <paramref name="focus"/>; nothing when it is infinite.</summary>
    /// <inheritdoc cref="NearLimitAt"/>
    public Length? FarLimitAt(Length focus)
    {
        var s = BeyondLens(focus);
        return s < HyperfocalM * (1 - 1e-12) ? Length.FromMetres(s * (HyperfocalM - focalM) / (HyperfocalM - s)) : null;
    }

    private double BeyondLens(Length focus) =>
        focus.Metres > focalM
            ? focus.Metres
            : throw new ArgumentOutOfRangeException(nameof(focus), focus, "A lens focuses on things farther than its focal length.");
}
