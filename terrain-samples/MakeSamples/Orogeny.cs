namespace MakeSamples;

/// <summary>The ranges rise out of the sea while rivers cut them, first on a coarse grid, then on ever finer ones.</summary>
internal static class Orogeny
{
    private const int Seed = 23;
    private const double RiseOfAStepM = 76;
    private const double Bite = 1.4;
    private const double SteepestSlope = 0.95;

    // Points along a side; steps of rising and cutting; rounds of creep in each step.
    private static readonly (int Size, int Steps, int Creep)[] Levels = [(151, 250, 3), (301, 150, 3), (601, 40, 2), (1201, 12, 0)];

    public static Ground Raise(Action<string> say)
    {
        var ground = new Ground(new Lattice(Levels[0].Size));
        foreach (var (size, steps, creep) in Levels)
        {
            say($"ranges and rivers, {size} × {size}");
            if (size > ground.Lattice.Size)
                ground = ground.Refine();
            Roughen(ground);
            Run(ground, steps, creep);
        }
        return ground;
    }

    private static void Roughen(Ground ground)
    {
        for (var i = 0; i < ground.Lattice.Count; i++)
            if (!ground.IsSea[i])
                ground.HeightM[i] += ground.Lattice.EastStepM * 0.12 * Noise.Hash(i, 0, Seed);
    }

    private static void Run(Ground ground, int steps, int creep)
    {
        var lattice = ground.Lattice;
        var softness = RiverErosion.Softness(lattice);
        var (rise, bite, steepest) = (new double[lattice.Count], new double[lattice.Count], new double[lattice.Count]);
        for (var i = 0; i < lattice.Count; i++)
        {
            rise[i] = RiseOfAStepM * Ranges.Rise(lattice.EastKm(i), lattice.NorthKm(i));
            bite[i] = Bite * softness[i];
            steepest[i] = SteepestSlope / softness[i];
        }
        for (var step = 0; step < steps; step++)
        {
            var drainage = Drainage.Of(ground, whim: Seed + step);
            RiverErosion.Cut(ground, drainage, rise, bite, steepest);
            Hillslopes.Creep(ground, drainage, creep);
        }
    }
}
