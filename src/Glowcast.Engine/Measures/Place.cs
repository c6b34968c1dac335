namespace Glowcast.Engine.Measures;

/// <summary>A point with its height: where an eye, a crest or a sensor is.</summary>
/// <param name="Point">On the WGS84 ellipsoid.</param>
/// <param name="Height">Above the grid's vertical datum, which is used as it is for the height above the ellipsoid
/// (the difference, under 110 m, moves the sun by less than 1e-6°).</param>
public readonly record struct Place(GeoPoint Point, Length Height)
{
    public static Place FromDegrees(double latitude, double longitude, double heightM = 0) =>
        new(GeoPoint.FromDegrees(latitude, longitude), Length.FromMetres(heightM));
}
