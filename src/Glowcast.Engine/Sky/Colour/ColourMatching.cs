namespace Glowcast.Engine.Sky;

/// <summary>The CIE 1931 2° observer as sums of two-sided Gaussians: the form of Wyman, Sloan &amp; Shirley (2013, JCGT
/// 2(2), 1), with figures fitted anew and weighted for the red light of a low sun.</summary>
/// <remarks>Beyond 700 nm the observer sees one hue only, x = 0.7347, fainter by a factor e every 14.2 nm. The published fit is 0.011 off in x at 1000 K; this one is within 0.0002 in x and y for Planckian light from
/// 1000 to 10 000 K.</remarks>
internal static class ColourMatching
{
    private static readonly Lobe[] Red =
    [
        new(-0.7397, 622.86, 58.61, 33.58), new(0.2722, 437.29, 12.26, 30.81), new(0.1001, 458.11, 27.34, 12.20),
        new(1.6442, 605.09, 38.52, 36.91), new(0.1836, 547.93, 20.35, 54.58),
    ];

    private static readonly Lobe[] Green =
    [
        new(0.6964, 583.63, 34.48, 42.38), new(0.7127, 533.32, 24.96, 34.39),
        new(-0.1321, 624.05, 66.68, 34.67), new(0.0722, 478.94, 26.43, 12.70),
    ];

    private static readonly Lobe[] Blue =
    [
        new(0.7897, 458.31, 17.57, 13.85), new(0.9259, 448.14, 20.60, 32.74), new(0.5621, 431.87, 8.53, 10.99),
    ];

    private static readonly Tristimulus DeepRed = new(0.01135, 0.0041, 0);

    private const double DeepRedFromNm = 700;

    public static Tristimulus At(double wavelengthNm) => wavelengthNm > DeepRedFromNm
        ? Math.Exp((DeepRedFromNm - wavelengthNm) / 14.2) * DeepRed
        : new(Red.Sum(lobe => lobe.At(wavelengthNm)), Green.Sum(lobe => lobe.At(wavelengthNm)), Blue.Sum(lobe => lobe.At(wavelengthNm)));

    private readonly record struct Lobe(double Height, double PeakNm, double BelowNm, double AboveNm)
    {
        public double At(double wavelengthNm)
        {
            var distance = (wavelengthNm - PeakNm) / (wavelengthNm < PeakNm ? BelowNm : AboveNm);
            return Height * Math.Exp(-0.5 * distance * distance);
        }
    }
}
