namespace Glowcast.Engine.Terrain;

public enum ProjectionMethod
{
    TransverseMercator,
    LambertConformal,
    Albers,
}
