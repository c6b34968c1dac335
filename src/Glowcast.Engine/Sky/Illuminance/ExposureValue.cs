namespace Glowcast.Engine.Sky;

/// <summary>Exposure value, EV: log₂(N²/t) of a setting that suits a light (ISO 2720:1974).</summary>
public static class ExposureValue
{
    /// <summary>Of a flat incident-light receptor [lx·s]; ISO 2720 allows 240 to 400.</summary>
    public const double IncidentC = 250;

    /// <summary>Of a reflected-light meter [cd·s/m²]; ISO 2720 allows 10.6 to 13.4.</summary>
    public const double ReflectedK = 12.5;

    /// <summary>For a surface in this light, at a sensitivity.</summary>
    public static double OfIlluminance(double lux, double iso = 100) => Math.Log2(lux * iso / IncidentC);

    /// <summary>For a surface as bright as this, at a sensitivity.</summary>
    public static double OfLuminance(double candelaPerSquareMetre, double iso = 100) => Math.Log2(candelaPerSquareMetre * iso / ReflectedK);

    /// <summary>Of an aperture number and an exposure time.</summary>
    public static double OfSetting(double aperture, double exposureS) => Math.Log2(aperture * aperture / exposureS);

    /// <summary>The exposure time that suits an exposure value at an aperture number [s].</summary>
    public static double ExposureS(double value, double aperture) => aperture * aperture / Math.Pow(2, value);
}
