using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The points of the ground along one bearing.</summary>
public sealed class GroundLine
{
    private readonly List<GeodesicArc> pieces;

    public GroundLine(GeoPoint from, Azimuth bearing) =>
        pieces = [GeodesicArc.From(from.Latitude.Radians, from.Longitude.Radians, bearing.Radians)];

    /// <param name="distanceM">Along the geodesic [m], not negative.</param>
    public GeoPoint At(double distanceM)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(distanceM);
        while (pieces[^1].EndM < distanceM) pieces.Add(pieces[^1].Next());
        var (latitude, longitude) = pieces.First(piece => distanceM <= piece.EndM).At(distanceM);
        return GeoPoint.FromDegrees(double.RadiansToDegrees(latitude), double.RadiansToDegrees(longitude));
    }
}
