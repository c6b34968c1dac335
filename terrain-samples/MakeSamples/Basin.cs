namespace MakeSamples;

/// <summary>Where the ice of the long valley stood thickest, below the lookout: the basin of its lake.</summary>
internal static class Basin
{
    private const double EastKm = 54, NorthKm = 52, ReachKm = 9, DeepestM = 150;

    /// <param name="troughWidthM">Narrow side valleys are spared.</param>
    public static double DepthM(double eastKm, double northKm, double troughWidthM)
    {
        var (x, y) = ((eastKm - EastKm) / ReachKm, (northKm - NorthKm) / ReachKm);
        var inside = Math.Max(0, 1 - (x * x) - (y * y));
        return troughWidthM < 900 ? 0 : DeepestM * inside * inside;
    }
}
