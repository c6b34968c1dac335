namespace Glowcast.Engine.Measures;

/// <summary>The WGS84 ellipsoid (NGA.STND.0036): its constants and radii of curvature, in metres.</summary>
public static class Wgs84
{
    public const double SemiMajorAxisM = 6378137.0;

    public const double Flattening = 1 / 298.257223563;

    public const double SemiMinorAxisM = SemiMajorAxisM * (1 - Flattening);

    /// <summary>First eccentricity squared.</summary>
    public const double EccentricitySquared = Flattening * (2 - Flattening);

    /// <summary>Radius of curvature in the meridian [m], M = a(1−e²)/(1−e² sin²φ)^(3/2).</summary>
    public static double MeridianRadiusM(double sinLatitude)
    {
        var w = 1 - (EccentricitySquared * sinLatitude * sinLatitude);
        return SemiMajorAxisM * (1 - EccentricitySquared) / (w * Math.Sqrt(w));
    }

    /// <summary>Radius of curvature in the prime vertical [m], N = a/√(1−e² sin²φ).</summary>
    public static double PrimeVerticalRadiusM(double sinLatitude) =>
        SemiMajorAxisM / Math.Sqrt(1 - (EccentricitySquared * sinLatitude * sinLatitude));
}
