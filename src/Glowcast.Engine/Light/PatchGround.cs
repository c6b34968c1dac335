using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>How the ground of a patch lies.</summary>
/// <param name="Normal">Its upward unit normal in its own east, north and up; level where the grid does not know it.</param>
/// <param name="SkyView">Share of an even sky's light that reaches it, 0 to 1.</param>
internal readonly record struct PatchGround(GroundNormal Normal, double SkyView)
{
    // Ground that sees no sky at all is lit by any beam; this keeps quotients finite.
    private const double LeastView = 0.01;

    public static PatchGround[] Of(IReadOnlyList<Place> places, ElevationGrid grid, SightModel model)
    {
        var normals = new GroundNormal?[places.Count];
        for (var i = 0; i < normals.Length; i++) normals[i] = GroundNormal.At(grid, places[i].Point);
        var views = Light.SkyView.Of(places, normals, grid, model);
        return [.. normals.Zip(views, (normal, view) => new PatchGround(normal ?? GroundNormal.Level, Math.Max(LeastView, view)))];
    }

    /// <summary>Level where the grid does not know it.</summary>
    public static GroundNormal NormalAt(ElevationGrid grid, Place place) => GroundNormal.At(grid, place.Point) ?? GroundNormal.Level;

    /// <summary>n·s towards a body.</summary>
    /// <param name="azimuthRad">Its true bearing [rad].</param>
    /// <param name="apparentRad">Its altitude as seen [rad].</param>
    public double CosTo(double azimuthRad, double apparentRad)
    {
        var (sinAzimuth, cosAzimuth) = Math.SinCos(azimuthRad);
        var (sinAltitude, cosAltitude) = Math.SinCos(apparentRad);
        return Normal.CosTo((sinAzimuth * cosAltitude, cosAzimuth * cosAltitude, sinAltitude));
    }
}
