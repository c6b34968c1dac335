namespace Glowcast.Engine.Sky;

/// <summary>How strongly each part of the air dims light of a wavelength.</summary>
internal static class Extinction
{
    private const double MoleculesPerAtmCm = 2.6867811e19; // per cm²: Loschmidt's number at 0 °C, 1 atm
    private const double FirstOzoneNm = 375;
    private const double OzoneStepNm = 10;

    /// <summary>Ozone cross-sections at 233 K, means over 10 nm about 375, 385, … 785 nm [10⁻²³ cm²]: Serdyuchenko et al.
    /// 2014 (Atmos. Meas. Tech. 7, 625; CC BY 3.0).</summary>
    private static ReadOnlySpan<double> OzoneCrossSections =>
    [
        0.2182, 0.2818, 0.6636, 1.527, 2.763, 5.520, 8.451, 15.82, 23.16, 36.69, 49.24, 77.52, 90.16, // 375
        148.0, 160.2, 213.9, 275.5, 309.1, 350.0, 426.6, 467.2, 439.8, 470.1, 501.9, // 505
        430.5, 374.0, 321.5, 266.2, 223.8, 185.2, 147.3, 120.9, 94.23, 74.55, // 615
        65.66, 51.05, 41.50, 42.28, 32.37, 24.51, 28.01, 25.34, // 715
    ];

    /// <summary>Rayleigh optical depth of the whole air above the sea at 45° latitude (Bodhaine et al. 1999, J. Atmos.
    /// Ocean. Technol. 16, 1854, eq. 30).</summary>
    public static double Rayleigh(double wavelengthNm)
    {
        var square = wavelengthNm * wavelengthNm * 1e-6;
        return 0.0021520 * (1.0455996 - (341.29061 / square) - (0.90230850 * square))
            / (1 + (0.0027059889 / square) - (85.968563 * square));
    }

    /// <summary>Optical depth of 1 atm·cm of ozone in the visible (the Chappuis band).</summary>
    public static double Ozone(double wavelengthNm)
    {
        var place = Math.Clamp((wavelengthNm - FirstOzoneNm) / OzoneStepNm, 0, OzoneCrossSections.Length - 1);
        var index = Math.Min((int)place, OzoneCrossSections.Length - 2);
        var crossSection = OzoneCrossSections[index] + ((place - index) * (OzoneCrossSections[index + 1] - OzoneCrossSections[index]));
        return crossSection * 1e-23 * MoleculesPerAtmCm;
    }
}
