namespace MakeSamples;

/// <summary>Soil and scree creep downhill and round off what lies between the streams.</summary>
internal static class Hillslopes
{
    /// <summary>A stream that drains this much land [m²] carries away half of what creeps into its bed.</summary>
    private const double StreamAreaM2 = 250_000;

    public static void Creep(Ground ground, Drainage drainage, int rounds)
    {
        var next = new double[ground.Lattice.Count];
        for (var round = 0; round < rounds; round++)
        {
            for (var i = 0; i < next.Length; i++)
                next[i] = ground.IsSea[i] ? 0 : Settled(ground, i, 1 / (1 + (drainage.AreaM2[i] / StreamAreaM2)));
            next.CopyTo(ground.HeightM, 0);
        }
    }

    // A move toward the mean of the neighbours; the nearer ones, east and west, count as much more as they are nearer squared.
    private static double Settled(Ground ground, int i, double mobility)
    {
        var (lattice, height) = (ground.Lattice, ground.HeightM);
        var (east2, north2) = (lattice.EastStepM * lattice.EastStepM, lattice.NorthStepM * lattice.NorthStepM);
        var acrossEast = height[i - 1] + height[i + 1] - (2 * height[i]);
        var acrossNorth = height[i - lattice.Size] + height[i + lattice.Size] - (2 * height[i]);
        return height[i] + (0.25 * mobility * (acrossEast + (acrossNorth * east2 / north2)));
    }
}
