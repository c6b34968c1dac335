namespace Glowcast.Engine.Terrain;

/// <summary>The greatest angle of the ground on a ray [rad], and how far it is [m]; NaN where there is none.</summary>
internal readonly record struct RayMaximum(double AngleRad, double DistanceM)
{
    public static readonly RayMaximum None = new(double.NegativeInfinity, double.NaN);

    public bool Found => !double.IsNaN(DistanceM);
}
