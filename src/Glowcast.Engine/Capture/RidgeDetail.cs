using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>The smallest thing the picture can show on a ridge.</summary>
/// <remarks>docs/model.md, Capture eq. 19. Unsteady air is left out; on warm days it can be worse than all of this.</remarks>
/// <param name="Pixel">What one pixel spans at that distance.</param>
/// <param name="Diffraction">What the radius of the Airy disc spans there.</param>
/// <param name="ContrastLeft">The share of its contrast that a shaded thing keeps through the haze; 1 without any.</param>
public sealed record RidgeDetail(Length Pixel, Length Diffraction, double ContrastLeft)
{
    // Two per cent of contrast is the limit by which visibility is defined (AMS Glossary, meteorological range).
    private const double OpticalDepthAtVisibility = 3.912;

    /// <summary>Two pixels, widened by diffraction.</summary>
    public Length Smallest => Length.FromMetres(Math.Sqrt((4 * Pixel.Metres * Pixel.Metres) + (Diffraction.Metres * Diffraction.Metres)));

    /// <param name="visibility">Meteorological range along the path; none for clear air.</param>
    /// <exception cref="ArgumentOutOfRangeException">A distance is zero or less.</exception>
    public static RidgeDetail At(Length distance, FrameField field, Lens lens, Length? visibility = null)
    {
        Sensible.Positive(distance, nameof(distance), "The ridge's distance");
        var airyRadius = Length.FromMillimetres(new Sharpness(field, lens).AiryDiameterUm / 2 / 1000);
        return new RidgeDetail(
            distance * (1 / field.FocalLengthPx),
            distance * (airyRadius / lens.FocalLength),
            visibility is { } range ? Math.Exp(-OpticalDepthAtVisibility * (distance / Sensible.Positive(range, nameof(visibility), "The visibility"))) : 1);
    }
}
