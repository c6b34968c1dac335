using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>A short piece of a geodesic as a cubic in distance: latitude and longitude [rad] at any point of it in a
/// few multiplications.</summary>
/// <remarks>
/// The geodesic's own equations φ′ = cos α / M, λ′ = sin α / (N cos φ), α′ = tan φ sin α / N are carried across the
/// piece by one classical Runge–Kutta step, and the piece is the Hermite cubic of its two ends. At the lengths that
/// <see cref="LongestPieceM"/> gives both stay within a millimetre of the geodesic.
/// </remarks>
internal readonly struct GeodesicArc
{
    private const double LongestM = 40_000;

    // Nearer to a pole than this the equations above lose their meaning; no terrain of ours depends on it.
    private const double MostLatitudeRad = Math.PI / 2 - 1e-7;

    private readonly double lat0, lat1, lat2, lat3, lon0, lon1, lon2, lon3;

    private readonly Heading end;

    private GeodesicArc(Heading start, double startM, double lengthM)
    {
        StartM = startM;
        LengthM = lengthM;
        var first = Slope.At(start);
        end = Step(start, first, lengthM);
        var last = Slope.At(end);
        (lat0, lat1, lat2, lat3) = Hermite(start.Lat, end.Lat, first.Lat * lengthM, last.Lat * lengthM);
        (lon0, lon1, lon2, lon3) = Hermite(start.Lon, end.Lon, first.Lon * lengthM, last.Lon * lengthM);
    }

    public double StartM { get; }

    public double LengthM { get; }

    public double EndM => StartM + LengthM;

    public static GeodesicArc From(double latitudeRad, double longitudeRad, double azimuthRad)
    {
        var start = new Heading(Math.Clamp(latitudeRad, -MostLatitudeRad, MostLatitudeRad), longitudeRad, azimuthRad);
        return new GeodesicArc(start, 0, LongestPieceM(start.Lat));
    }

    /// <summary>The next piece of the same geodesic.</summary>
    public GeodesicArc Next() => new(end, EndM, LongestPieceM(end.Lat));

    /// <summary>Latitude and longitude [rad] at a distance [m] from the start of the whole geodesic.</summary>
    public (double LatitudeRad, double LongitudeRad) At(double distanceM)
    {
        var t = (distanceM - StartM) / LengthM;
        return (lat0 + (t * (lat1 + (t * (lat2 + (t * lat3))))), lon0 + (t * (lon1 + (t * (lon2 + (t * lon3))))));
    }

    // Meridians close up towards the poles, and with them the scale on which the line bends.
    private static double LongestPieceM(double latitudeRad) =>
        Math.Min(LongestM, 0.02 * Wgs84.SemiMajorAxisM / Math.Max(1e-9, Math.Abs(Math.Tan(latitudeRad))));

    private static Heading Step(Heading start, Slope k1, double h)
    {
        var k2 = Slope.At(start.Along(k1, h / 2));
        var k3 = Slope.At(start.Along(k2, h / 2));
        var k4 = Slope.At(start.Along(k3, h));
        return start.Along(
            new Slope(
                (k1.Lat + (2 * k2.Lat) + (2 * k3.Lat) + k4.Lat) / 6,
                (k1.Lon + (2 * k2.Lon) + (2 * k3.Lon) + k4.Lon) / 6,
                (k1.Azimuth + (2 * k2.Azimuth) + (2 * k3.Azimuth) + k4.Azimuth) / 6),
            h);
    }

    private static (double C0, double C1, double C2, double C3) Hermite(double a, double b, double slopeA, double slopeB) =>
        (a, slopeA, (3 * (b - a)) - (2 * slopeA) - slopeB, (2 * (a - b)) + slopeA + slopeB);

    private readonly record struct Heading(double Lat, double Lon, double Azimuth)
    {
        public Heading Along(Slope slope, double metres) =>
            new(Lat + (slope.Lat * metres), Lon + (slope.Lon * metres), Azimuth + (slope.Azimuth * metres));
    }

    private readonly record struct Slope(double Lat, double Lon, double Azimuth)
    {
        public static Slope At(Heading heading)
        {
            var (sinLat, cosLat) = Math.SinCos(heading.Lat);
            var (sinAz, cosAz) = Math.SinCos(heading.Azimuth);
            var n = Wgs84.PrimeVerticalRadiusM(sinLat);
            return new Slope(cosAz / Wgs84.MeridianRadiusM(sinLat), sinAz / (n * cosLat), sinLat * sinAz / (cosLat * n));
        }
    }
}
