namespace MakeSamples;

/// <summary>The outline of the island: a rounded rectangle that nearly fills the tile, made ragged by noise.</summary>
internal static class Coast
{
    private const int Seed = 71;

    public static bool[] Sea(Lattice lattice)
    {
        var sea = new bool[lattice.Count];
        for (var i = 0; i < sea.Length; i++)
            sea[i] = lattice.IsRim(i) || Inland(lattice.EastKm(i), lattice.NorthKm(i)) <= 0;
        return sea;
    }

    /// <summary>Above 0 on land, 1 in the island's middle, below 0 at sea.</summary>
    public static double Inland(double eastKm, double northKm)
    {
        var x = (eastKm - (Lattice.WidthM / 2000)) / 36.2;
        var y = (northKm - (Lattice.HeightM / 2000)) / 53.2;
        var (x4, y4) = (x * x * x * x, y * y * y * y);
        var bays = 0.22 * Noise.Layered(eastKm / 13, northKm / 13, 5, Seed);
        return 1 - x4 - y4 - (bays * (x4 + y4)) - (0.12 * (x4 + y4));
    }
}
