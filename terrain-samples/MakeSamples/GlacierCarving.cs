namespace MakeSamples;

/// <summary>Ice widens every valley to a trough.</summary>
/// <remarks>Each stream point carves a bowl about itself; a trough is what the bowls of a stream have in common. The more
/// land a stream drains, the wider and deeper it is carved, so side valleys are left hanging above the main one.</remarks>
internal static class GlacierCarving
{
    private const double LeastAreaM2 = 400_000;

    // Above this height ice lay long enough to hollow cirques where the streams only begin.
    private const double CirqueHeightM = 1500;
    private const double LeastCirqueAreaM2 = 120_000;

    public static void Carve(Ground ground)
    {
        var drainage = Drainage.Of(ground, whim: 1);
        var carved = (double[])ground.HeightM.Clone();
        foreach (var i in drainage.Order)
            if (!ground.IsSea[i] && drainage.AreaM2[i] >= LeastArea(ground.HeightM[i]))
                CarveBowl(ground, carved, i, Trough.Draining(Math.Max(LeastAreaM2, drainage.AreaM2[i])));
        for (var i = 0; i < carved.Length; i++)
        {
            ground.IsSea[i] |= carved[i] <= 0; // a fjord
            ground.HeightM[i] = Math.Max(0, carved[i]);
        }
    }

    private static double LeastArea(double heightM) => heightM > CirqueHeightM ? LeastCirqueAreaM2 : LeastAreaM2;

    private static void CarveBowl(Ground ground, double[] carved, int centre, Trough trough)
    {
        var lattice = ground.Lattice;
        var (row, column) = (centre / lattice.Size, centre % lattice.Size);
        var (rows, columns) = ((int)(trough.ReachM / lattice.NorthStepM), (int)(trough.ReachM / lattice.EastStepM));
        var floor = ground.HeightM[centre] - trough.DepthM
            - LakeBasin.DepthM(lattice.EastKm(centre), lattice.NorthKm(centre), trough);
        for (var r = Math.Max(0, row - rows); r <= Math.Min(lattice.Size - 1, row + rows); r++)
            for (var c = Math.Max(0, column - columns); c <= Math.Min(lattice.Size - 1, column + columns); c++)
            {
                var (north, east) = ((r - row) * lattice.NorthStepM, (c - column) * lattice.EastStepM);
                var i = (r * lattice.Size) + c;
                carved[i] = Math.Min(carved[i], floor + trough.SideM(Math.Sqrt((north * north) + (east * east))));
            }
    }
}
