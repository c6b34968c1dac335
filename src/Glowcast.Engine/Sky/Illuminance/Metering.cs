namespace Glowcast.Engine.Sky;

/// <summary>From a luminance or an illuminance to the setting of a camera, and how near that comes to what the sensor holds.</summary>
public static class Metering
{
    /// <summary>Sensitivity where none is given.</summary>
    public const double UsualIso = 100;

    /// <summary>By how much a metered tone lies under clipping [stops], log₂ 7.8: ISO 12232 puts saturation at 78/S lx·s and the mean tone at 10/S.</summary>
    public static readonly double ClippingStops = Math.Log2(7.8);

    /// <summary>The exposure value at ISO 100 by which a luminance [cd/m²] comes out this far under clipping [stops].</summary>
    public static double Ev100UnderClipping(double luminanceCd, double marginStops) => ExposureValue.OfLuminance(luminanceCd) - ClippingStops + marginStops;

    /// <summary>Exposure time [s] of an exposure value at ISO 100: N²/2^EV · 100/ISO.</summary>
    public static double ShutterS(double ev100, double aperture, double iso) => ExposureValue.ExposureS(ev100, aperture) * 100 / iso;
}
