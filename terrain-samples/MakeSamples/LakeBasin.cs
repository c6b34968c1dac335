namespace MakeSamples;

/// <summary>Where the ice of the long valley stood thickest, below the lookout: the basin of its lake.</summary>
internal static class LakeBasin
{
    private const double EastKm = 54;
    private const double NorthKm = 52;
    private const double ReachKm = 9;
    private const double DeepestM = 150;
    private const double LeastTroughWidthM = 900;

    /// <summary>How much deeper a trough is carved at a place; side valleys are spared.</summary>
    public static double DepthM(double eastKm, double northKm, Trough trough)
    {
        var (x, y) = ((eastKm - EastKm) / ReachKm, (northKm - NorthKm) / ReachKm);
        var inside = Math.Max(0, 1 - (x * x) - (y * y));
        return trough.WidthM < LeastTroughWidthM ? 0 : DeepestM * inside * inside;
    }
}
