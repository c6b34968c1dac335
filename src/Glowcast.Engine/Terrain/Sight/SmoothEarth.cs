namespace Glowcast.Engine.Terrain;

/// <summary>The earth past the edge of a grid, taken as a smooth sphere of one height.</summary>
internal static class SmoothEarth
{
    /// <summary>The greatest angle of ground of one height from <paramref name="fromM"/> outwards: at the tangent
    /// point √((h₀−h)/drop), or at the edge where that lies nearer.</summary>
    public static RayMaximum Horizon(double eyeM, double heightM, double fromM, double dropPerMetre)
    {
        var below = eyeM - heightM;
        var tangentM = below > 0 ? Math.Sqrt(below / dropPerMetre) : 0;
        var distanceM = Math.Max(Math.Max(fromM, tangentM), 1);
        return new RayMaximum(Math.Atan(-below / distanceM) - (distanceM * dropPerMetre), distanceM);
    }
}
