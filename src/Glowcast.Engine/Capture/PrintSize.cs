using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>The size on paper of a picture of so many pixels.</summary>
/// <remarks>docs/model.md, Capture eq. 16 and 17.</remarks>
public sealed record PrintSize
{
    /// <summary>Fine art seen closely, large prints, and prints seen from across a room.</summary>
    public static readonly IReadOnlyList<double> UsualPpi = [300, 240, 180];

    private const double MillimetresPerInch = 25.4;

    // What a standard eye (6/6) just tells apart.
    private static readonly Angle Acuity = Angle.FromArcminutes(1);

    /// <exception cref="ArgumentOutOfRangeException">A number is zero or less.</exception>
    public PrintSize(double widthPx, double heightPx, double ppi)
    {
        WidthPx = Sensible.Positive(widthPx, nameof(widthPx), "A print's width in pixels");
        HeightPx = Sensible.Positive(heightPx, nameof(heightPx), "A print's height in pixels");
        Ppi = Sensible.Positive(ppi, nameof(ppi), "A print's pixels per inch");
    }

    public double WidthPx { get; }

    public double HeightPx { get; }

    public double Ppi { get; }

    public Length Width => OnPaper(WidthPx);

    public Length Height => OnPaper(HeightPx);

    /// <summary>From here on the eye no longer tells the pixels apart.</summary>
    public Length ViewingDistance => Length.FromMillimetres(MillimetresPerInch / Ppi / Acuity.Tan());

    private Length OnPaper(double pixels) => Length.FromMillimetres(pixels / Ppi * MillimetresPerInch);
}
