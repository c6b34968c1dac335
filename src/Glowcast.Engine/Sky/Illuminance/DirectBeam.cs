using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>Light of the sun's whole disc after its way through clear air.</summary>
/// <param name="NormalIlluminanceLux">On a surface that faces the sun.</param>
/// <param name="Colour">CIE 1931; for a temperature ask it, and heed the distance that comes with it.</param>
public readonly record struct BeamLight(double NormalIlluminanceLux, Chromaticity Colour)
{
    /// <summary>How many stops of its light outside the air, at 1 au, the beam has lost.</summary>
    public double StopsLost => Math.Log2(SolarSpectrum.IlluminanceLux / NormalIlluminanceLux);
}

/// <summary>Sunlight dimmed and reddened by molecules, ozone and haze, wavelength by wavelength (Bouguer, Lambert, Beer).</summary>
/// <remarks>Water vapour and oxygen are left out: at an air mass of 1.5 they make the beam 1.6 % darker and its x 0.002 less
/// (ASTM G173), near the horizon some 10 % darker. Light scattered into the beam's direction (circumsolar) is not counted.</remarks>
public static class DirectBeam
{
    /// <summary>A common amount of ozone [atm·cm]; 0.2 to 0.5 occur.</summary>
    public const double UsualOzoneAtmCm = 0.3;

    /// <summary>Beyond this nothing is seen by anybody; it keeps the stops lost finite.</summary>
    private const double DeepestDepth = 200;

    private static readonly double[] Rayleigh = VisibleSpectrum.Sample(Extinction.Rayleigh);

    private static readonly double[] Ozone = VisibleSpectrum.Sample(Extinction.Ozone);

    /// <summary>Outside the air, at 1 au.</summary>
    public static BeamLight Outside => Through(default, Haze.None);

    /// <param name="apparentAltitude">Of the sun's centre as seen; below the horizontal too.</param>
    /// <param name="air">At the observer; standard when left out.</param>
    public static BeamLight At(
        Angle apparentAltitude, Length observerHeight, Haze haze, Air? air = null, double ozoneAtmCm = UsualOzoneAtmCm, double distanceAu = 1) =>
        Through(AirColumns.Along(apparentAltitude, observerHeight, haze.ScaleHeight, air), haze, ozoneAtmCm, distanceAu);

    /// <summary>Through given amounts of air.</summary>
    public static BeamLight Through(AirColumns columns, Haze haze, double ozoneAtmCm = UsualOzoneAtmCm, double distanceAu = 1)
    {
        Span<double> depths = stackalloc double[VisibleSpectrum.Count];
        for (var i = 0; i < depths.Length; i++)
        {
            depths[i] = (Rayleigh[i] * columns.Molecules) + (Ozone[i] * ozoneAtmCm * columns.Ozone) + (haze.VisibleDepths[i] * columns.Aerosol);
        }
        var (colour, illuminanceLux) = Seen(depths);
        return new BeamLight(illuminanceLux / (distanceAu * distanceAu), colour);
    }

    // The least depth is taken out first, so that a beam of next to nothing still has its colour.
    private static (Chromaticity Colour, double IlluminanceLux) Seen(ReadOnlySpan<double> depths)
    {
        var least = double.PositiveInfinity;
        foreach (var depth in depths) least = Math.Min(least, depth);
        Span<double> beam = stackalloc double[depths.Length];
        for (var i = 0; i < beam.Length; i++) beam[i] = SolarSpectrum.Irradiance[i] * Math.Exp(least - depths[i]);
        var seen = VisibleSpectrum.Weigh(beam);
        return (seen.Chromaticity, seen.Y * Math.Exp(-Math.Min(least, DeepestDepth)));
    }

    /// <summary>Share of one wavelength that comes through, 0 to 1.</summary>
    public static double Transmittance(double wavelengthNm, AirColumns columns, Haze haze, double ozoneAtmCm = UsualOzoneAtmCm) => Math.Exp(
        -(Extinction.Rayleigh(wavelengthNm) * columns.Molecules)
        - (Extinction.Ozone(wavelengthNm) * ozoneAtmCm * columns.Ozone)
        - (haze.OpticalDepth(wavelengthNm) * columns.Aerosol));
}
