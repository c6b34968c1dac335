namespace Glowcast.Engine.Sky;

/// <summary>Sunlight outside the air at 1 au: C. Wehrli, Extraterrestrial Solar Spectrum, PMOD/WRC publication 615 (1985),
/// the WMO spectrum; its 1 and 2 nm figures averaged here over 5 nm.</summary>
internal static class SolarSpectrum
{
    /// <summary>At the wavelengths of <see cref="VisibleSpectrum"/> [W m⁻² nm⁻¹].</summary>
    public static ReadOnlySpan<double> Irradiance =>
    [
        1.148, 0.917, 1.144, 0.923, // 380
        1.612, 1.646, 1.704, 1.761, 1.715, 1.692, 1.500, 1.758, 1.788, 1.927, 2.054, 2.018, 2.037, 2.010, 1.983, 2.016, 2.054, 1.876, 1.930, 1.971, // 400
        1.894, 1.933, 1.935, 1.822, 1.801, 1.858, 1.908, 1.896, 1.850, 1.875, 1.868, 1.871, 1.824, 1.844, 1.832, 1.861, 1.836, 1.840, 1.760, 1.792, // 500
        1.758, 1.767, 1.736, 1.687, 1.715, 1.673, 1.667, 1.656, 1.636, 1.620, 1.588, 1.510, 1.544, 1.553, 1.532, 1.515, 1.497, 1.468, 1.457, 1.436, // 600
        1.407, 1.404, 1.387, 1.366, 1.335, 1.349, 1.325, 1.312, 1.275, 1.283, 1.268, 1.255, 1.241, 1.217, 1.203, 1.197, 1.188, // 700
    ];

    /// <summary>What it gives on a surface facing the sun, lux.</summary>
    public static double IlluminanceLux { get; } = VisibleSpectrum.Weigh(Irradiance).Y;
}
