using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The shortest line between two points on WGS84: how long it is and how it sets out.</summary>
/// <param name="Distance">Along the ellipsoid, at height zero.</param>
/// <param name="Bearing">At the first point.</param>
public readonly record struct Geodesic(Length Distance, Azimuth Bearing)
{
    private const int MostRounds = 200;

    /// <summary>Vincenty's inverse solution (Survey Review 23, 1975), good to a millimetre.</summary>
    /// <exception cref="BadInputException">The points are so nearly opposite that the series does not settle.</exception>
    public static Geodesic Between(GeoPoint from, GeoPoint to)
    {
        const double f = Wgs84.Flattening;
        var longitudes = (to.Longitude - from.Longitude).Radians;
        var (sinU1, cosU1) = Math.SinCos(Math.Atan((1 - f) * from.Latitude.Tan()));
        var (sinU2, cosU2) = Math.SinCos(Math.Atan((1 - f) * to.Latitude.Tan()));
        var lambda = longitudes;
        for (var round = 0; round < MostRounds; round++)
        {
            var (sinLambda, cosLambda) = Math.SinCos(lambda);
            var east = cosU2 * sinLambda;
            var north = (cosU1 * sinU2) - (sinU1 * cosU2 * cosLambda);
            var sinSigma = Math.Sqrt((east * east) + (north * north));
            if (sinSigma == 0) return default;
            var cosSigma = (sinU1 * sinU2) + (cosU1 * cosU2 * cosLambda);
            var sigma = Math.Atan2(sinSigma, cosSigma);
            var sinAlpha = cosU1 * east / sinSigma;
            var cosSqAlpha = 1 - (sinAlpha * sinAlpha);
            var cos2SigmaM = cosSqAlpha < 1e-15 ? 0 : cosSigma - (2 * sinU1 * sinU2 / cosSqAlpha);
            var c = f / 16 * cosSqAlpha * (4 + (f * (4 - (3 * cosSqAlpha))));
            var before = lambda;
            lambda = longitudes + ((1 - c) * f * sinAlpha
                * (sigma + (c * sinSigma * (cos2SigmaM + (c * cosSigma * (-1 + (2 * cos2SigmaM * cos2SigmaM)))))));
            if (Math.Abs(lambda - before) < 1e-13)
                return new Geodesic(Length.FromMetres(LengthM(sigma, sinSigma, cosSigma, cosSqAlpha, cos2SigmaM)), Azimuth.FromEastNorth(east, north));
        }
        throw new BadInputException("to", $"No single shortest line joins {from} and {to}: they lie on opposite sides of the earth.");
    }

    private static double LengthM(double sigma, double sinSigma, double cosSigma, double cosSqAlpha, double cos2SigmaM)
    {
        const double b = Wgs84.SemiMinorAxisM;
        const double uFactor = ((Wgs84.SemiMajorAxisM * Wgs84.SemiMajorAxisM) - (b * b)) / (b * b);
        var uSq = cosSqAlpha * uFactor;
        var a = 1 + (uSq / 16384 * (4096 + (uSq * (-768 + (uSq * (320 - (175 * uSq)))))));
        var bb = uSq / 1024 * (256 + (uSq * (-128 + (uSq * (74 - (47 * uSq))))));
        var cosSq2 = cos2SigmaM * cos2SigmaM;
        var delta = bb * sinSigma * (cos2SigmaM + (bb / 4 * ((cosSigma * (-1 + (2 * cosSq2)))
            - (bb / 6 * cos2SigmaM * (-3 + (4 * sinSigma * sinSigma)) * (-3 + (4 * cosSq2))))));
        return b * a * (sigma - delta);
    }
}
