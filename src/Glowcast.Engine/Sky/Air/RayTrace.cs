using Glowcast.Engine.Measures;
using MathNet.Numerics.Integration;

namespace Glowcast.Engine.Sky;

/// <summary>What a ray of sunlight meets on its way from outside the air to the eye.</summary>
/// <param name="Refraction">How far it is bent: apparent less airless altitude.</param>
/// <param name="OpticalExcess">∫(n − 1) ds along the ray: the air it passes, in refractivity × length.</param>
/// <param name="LowestPoint">The observer's own height, or the ray's perigee when it comes from below the horizontal.</param>
internal readonly record struct RayPath(Angle Refraction, Length OpticalExcess, Length LowestPoint);

/// <summary>Follows rays through the US Standard Atmosphere 1976 round a sphere of 6371 km, by quadrature in the local
/// zenith angle (Auer &amp; Standish 2000, AJ 119, 2472).</summary>
/// <remarks>Exact and slow (tens of microseconds); the class <c>Refraction</c> is the quick answer.</remarks>
internal sealed class RayTrace
{
    internal const double EarthRadiusM = 6_371_000;

    private const int GaussOrder = 16;

    /// <summary>Straight up, the zenith angle of the ray is zero all the way and cannot count it; this is near enough.</summary>
    private const double NearestToZenithRad = 1e-6;

    private static readonly (AtmosphereLayer Layer, double TopM)[] Layers =
    [
        .. StandardAtmosphere.Layers.Zip(
            StandardAtmosphere.Layers.Skip(1).Select(above => StandardAtmosphere.GeometricM(above.BaseM)).Append(StandardAtmosphere.TopM)),
    ];

    private readonly RefractiveAir air;

    public RayTrace(double wavelengthUm) => air = new RefractiveAir(wavelengthUm);

    /// <param name="apparentAltitude">Up to 90°; below the horizontal the ray is followed down to its perigee and out
    /// again, whatever ground may stand there.</param>
    /// <exception cref="ArgumentOutOfRangeException">Above the zenith, or the ray is lost below −5 km.</exception>
    public RayPath Follow(Angle apparentAltitude, Length observerHeight)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(apparentAltitude.Radians, Math.PI / 2, nameof(apparentAltitude));
        var elevationRad = Math.Min(apparentAltitude.Radians, (Math.PI / 2) - NearestToZenithRad);
        var impactM = ImpactM(observerHeight.Metres, Math.Cos(elevationRad));
        if (elevationRad >= 0) return Upward(impactM, elevationRad, observerHeight.Metres);

        var perigeeM = PerigeeM(observerHeight.Metres, elevationRad);
        ArgumentOutOfRangeException.ThrowIfLessThan(perigeeM, -5000, nameof(apparentAltitude));
        var fromPerigee = Upward(impactM, 0, perigeeM);
        var toObserver = Pass(StandardAtmosphere.Layers[0], impactM, 0, -elevationRad, perigeeM);
        return new RayPath(
            fromPerigee.Refraction + Angle.FromRadians(toObserver.BendingRad),
            fromPerigee.OpticalExcess + Length.FromMetres(toObserver.ExcessM),
            Length.FromMetres(perigeeM));
    }

    /// <summary>How far below the horizontal a ray leaves the observer that grazes level ground at a height; zero when
    /// that is not below the observer.</summary>
    // cos(dip) = n₀ r₀ / n r, by its half angle so that a small dip keeps its digits.
    public Angle Dip(Length observerHeight, Length horizonHeight)
    {
        if (horizonHeight >= observerHeight) return Angle.Zero;
        var share = ImpactM(horizonHeight.Metres, 1) / ImpactM(observerHeight.Metres, 1);
        return Angle.FromRadians(2 * Math.Asin(Math.Sqrt((1 - share) / 2)));
    }

    /// <summary>n·r·cos(elevation), constant along a ray in round air (Bouguer).</summary>
    internal double ImpactM(double heightM, double cosElevation) => IndexTimesRadiusM(LayerAt(heightM), heightM) * cosElevation;

    /// <summary>The lowest point of a ray that reaches the observer from below the horizontal.</summary>
    internal double PerigeeM(double heightM, double elevationRad) =>
        HeightM(StandardAtmosphere.Layers[0], ImpactM(heightM, Math.Cos(elevationRad)), heightM);

    private RayPath Upward(double impactM, double elevationRad, double heightM)
    {
        var (bendingRad, excessM, startM, startRad) = (0.0, 0.0, heightM, elevationRad);
        foreach (var (layer, topM) in Layers)
        {
            if (topM <= startM) continue;
            var endRad = ElevationRad(layer, impactM, topM);
            var part = Pass(layer, impactM, startRad, endRad, startM);
            (bendingRad, excessM) = (bendingRad + part.BendingRad, excessM + part.ExcessM);
            (startM, startRad) = (topM, endRad);
        }
        return new RayPath(Angle.FromRadians(bendingRad), Length.FromMetres(excessM), Length.FromMetres(heightM));
    }

    // With e the elevation of the ray above the local horizontal, and n·r·cos e constant:
    // bending = −∫ r n′/(n + r n′) de,   ds = n r / ((n + r n′) cos e) de.
    private (double BendingRad, double ExcessM) Pass(AtmosphereLayer layer, double impactM, double fromRad, double toRad, double startM)
    {
        var (bendingRad, excessM, heightM) = (0.0, 0.0, startM);
        var rule = new GaussLegendreRule(fromRad, toRad, GaussOrder);
        for (var i = 0; i < rule.Order; i++)
        {
            var cosElevation = Math.Cos(rule.GetAbscissa(i));
            heightM = HeightM(layer, impactM / cosElevation, heightM);
            var radiusM = EarthRadiusM + heightM;
            var (excess, slope) = air.At(layer, heightM);
            var stretch = rule.GetWeight(i) / (1 + excess + (radiusM * slope));
            bendingRad -= radiusM * slope * stretch;
            excessM += excess * (1 + excess) * radiusM / cosElevation * stretch;
        }
        return (bendingRad, excessM);
    }

    private double ElevationRad(AtmosphereLayer layer, double impactM, double heightM) =>
        Math.Acos(Math.Min(1, impactM / IndexTimesRadiusM(layer, heightM)));

    // Newton on n·r, which grows steadily with height.
    private double HeightM(AtmosphereLayer layer, double indexTimesRadiusM, double guessM)
    {
        var heightM = guessM;
        for (var i = 0; i < 12; i++)
        {
            var (excess, slope) = air.At(layer, heightM);
            var radiusM = EarthRadiusM + heightM;
            var stepM = (((1 + excess) * radiusM) - indexTimesRadiusM) / (1 + excess + (radiusM * slope));
            heightM -= stepM;
            if (Math.Abs(stepM) < 1e-6) break;
        }
        return heightM;
    }

    private double IndexTimesRadiusM(AtmosphereLayer layer, double heightM) =>
        (1 + air.At(layer, heightM).Excess) * (EarthRadiusM + heightM);

    private static AtmosphereLayer LayerAt(double heightM) => Layers.First(l => l.TopM > heightM).Layer;
}
