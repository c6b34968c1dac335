namespace MakeSamples;

/// <summary>Ice widens every valley to a trough: a flat floor, and sides that steepen outward, cut into the land around.</summary>
/// <remarks>Each stream point carves a bowl about itself; a trough is what the bowls of a stream have in common. The more
/// land a stream drains, the wider and deeper it is carved, so side valleys are left hanging above the main one.</remarks>
internal static class GlacierCarving
{
    private const double LeastAreaM2 = 400_000;

    public static void Apply(Ground ground)
    {
        var drainage = Drainage.Of(ground, whim: 1);
        var carved = (double[])ground.HeightM.Clone();
        foreach (var i in drainage.Order)
            if (!ground.IsSea[i] && drainage.AreaM2[i] >= LeastAreaM2)
                CarveBowl(ground, carved, i, Trough.Of(drainage.AreaM2[i]));
        for (var i = 0; i < carved.Length; i++)
        {
            ground.IsSea[i] |= carved[i] <= 0; // a fjord
            ground.HeightM[i] = Math.Max(0, carved[i]);
        }
    }

    private static void CarveBowl(Ground ground, double[] carved, int centre, Trough trough)
    {
        var lattice = ground.Lattice;
        var (row, column) = (centre / lattice.Size, centre % lattice.Size);
        var (rows, columns) = ((int)(trough.ReachM / lattice.NorthStepM), (int)(trough.ReachM / lattice.EastStepM));
        var bed = ground.HeightM[centre] - trough.DepthM - Basin.DepthM(lattice.EastKm(centre), lattice.NorthKm(centre), trough.WidthM);
        for (var r = Math.Max(0, row - rows); r <= Math.Min(lattice.Size - 1, row + rows); r++)
            for (var c = Math.Max(0, column - columns); c <= Math.Min(lattice.Size - 1, column + columns); c++)
            {
                var (north, east) = ((r - row) * lattice.NorthStepM, (c - column) * lattice.EastStepM);
                var wall = bed + trough.WallM(Math.Sqrt((north * north) + (east * east)));
                var i = (r * lattice.Size) + c;
                carved[i] = Math.Min(carved[i], wall);
            }
    }

    /// <param name="FloorM">Half the width of the flat floor.</param>
    /// <param name="WidthM">From the floor's edge to where the side has risen by half of this.</param>
    /// <param name="DepthM">Of the bed below the stream's.</param>
    private readonly record struct Trough(double FloorM, double WidthM, double DepthM)
    {
        public double ReachM => FloorM + (1.8 * WidthM);

        public static Trough Of(double areaM2)
        {
            var area = areaM2 / 1e6;
            var quarter = Math.Sqrt(Math.Sqrt(area));
            var width = 210 * quarter * Math.Sqrt(Math.Sqrt(quarter)); // area to the power 5/16
            return new Trough(width * 0.35 * area / (area + 20), width, width * 0.10 * area / (area + 3));
        }

        public double WallM(double awayM)
        {
            var away = Math.Max(0, awayM - FloorM);
            return 0.5 * away * away / WidthM;
        }
    }
}
