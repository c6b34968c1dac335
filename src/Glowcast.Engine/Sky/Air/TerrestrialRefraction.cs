using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>How near-level rays between places on land bend.</summary>
internal static class TerrestrialRefraction
{
    private static readonly RefractiveAir Green = new(0.574);

    /// <summary>k, the curvature of a level ray against the earth's, k = −(R/n) dn/dh, in the US Standard Atmosphere
    /// 1976: 0.17 at the sea, 0.135 at 3000 m.</summary>
    /// <remarks>On a real day it varies from about 0.05 (noon, above warm ground) to 0.3 (night, inversion).</remarks>
    public static double CoefficientAt(Length height)
    {
        var layer = StandardAtmosphere.LayerAt(StandardAtmosphere.GeopotentialM(height.Metres));
        var (excess, slopePerM) = Green.At(layer, height.Metres);
        return -RayTrace.EarthRadiusM / (1 + excess) * slopePerM;
    }
}
