using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Light;

/// <summary>Air between the eye and a ridge: it dims what is behind it and shines itself (Koschmieder 1924).</summary>
/// <remarks>
/// L(d) = L₀ t + L_air (1 − t), t = e^(−βd), β = 3.912/V: at the visibility V a black object keeps 2 % of its contrast (AMS
/// Glossary, meteorological range). Even air along the whole path; a high sight line through clearer air has less of it.
/// </remarks>
/// <param name="Visibility">V.</param>
/// <param name="HorizonCd">L_air, the luminance of an endless path of sunlit air [cd/m²].</param>
public readonly record struct Airlight(Length Visibility, double HorizonCd)
{
    /// <summary>What the part of a path that lies in shade shines, against a sunlit one: half. Common practice, no source.</summary>
    public const double InShade = 0.5;

    // 600 cd/m² under a sky of 1500 lux, the figures of the worked table (docs/model.md, L15).
    private const double CdPerSkyLux = 0.4;

    private const double TwoPercent = 3.912;
    private const double FivePercent = 2.996;

    /// <summary>With the airlight that goes with a clear sky's light on level ground.</summary>
    public static Airlight Under(double skyLux, Length visibility) => new(visibility, CdPerSkyLux * skyLux);

    /// <summary>The range at 2 % of contrast that goes with one at 5 %, the meteorological optical range that instruments and airport reports give
    /// (WMO, CIE).</summary>
    public static Length RangeOfOpticalRange(Length opticalRange) => opticalRange * (TwoPercent / FivePercent);

    /// <summary>Of a path of which only a share shines in the sun.</summary>
    public Airlight InPartShade(double sunlitShare) => this with { HorizonCd = HorizonCd * (sunlitShare + (InShade * (1 - sunlitShare))) };

    public double ExtinctionPerM => TwoPercent / Visibility.Metres;

    /// <summary>Share of its light that comes through from a distance, 0 to 1.</summary>
    public double Transmittance(Length distance) => Math.Exp(-ExtinctionPerM * distance.Metres);

    /// <summary>The distance at which a transmittance between 0 and 1 is reached.</summary>
    public Length DistanceOf(double transmittance) => Length.FromMetres(-Math.Log(transmittance) / ExtinctionPerM);

    /// <summary>Luminance as seen from a distance [cd/m²].</summary>
    public double Seen(double luminanceCd, Length distance)
    {
        var t = Transmittance(distance);
        return (luminanceCd * t) + (HorizonCd * (1 - t));
    }

    /// <summary>Contrast of an object against the sky at the horizon behind it, as seen from a distance: (L − L_air)/L_air · t. Negative where it is
    /// the darker.</summary>
    public double Contrast(double luminanceCd, Length distance) => (luminanceCd - HorizonCd) / HorizonCd * Transmittance(distance);

    /// <summary>Up to which distance it keeps at least this contrast, brighter or darker; zero where it has less from the start.</summary>
    public Length ContrastWithin(double luminanceCd, double contrast)
    {
        var near = Math.Abs(luminanceCd - HorizonCd) / HorizonCd;
        return near > contrast ? DistanceOf(contrast / near) : Length.Zero;
    }
}
