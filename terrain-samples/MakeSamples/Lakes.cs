namespace MakeSamples;

/// <summary>Deep hollows hold lakes, level up to their outlet; shallow ones have silted up to uneven meadow.</summary>
internal static class Lakes
{
    private const int Seed = 613;
    private const double SiltedM = 14;

    public static void Fill(Ground ground)
    {
        var drainage = Drainage.Of(ground, whim: 2);
        var hollow = Hollows(ground, drainage);
        var deepest = new double[ground.Lattice.Count];
        for (var i = 0; i < hollow.Length; i++)
            deepest[hollow[i]] = Math.Max(deepest[hollow[i]], drainage.FilledM[i] - ground.HeightM[i]);

        for (var i = 0; i < hollow.Length; i++)
            if (drainage.FilledM[i] > ground.HeightM[i])
                ground.HeightM[i] = deepest[hollow[i]] > SiltedM ? Math.Round(drainage.FilledM[i]) : drainage.FilledM[i] + Meadow(ground.Lattice, i);
    }

    // For every point the lowest point of the hollow it lies in, or itself.
    private static int[] Hollows(Ground ground, Drainage drainage)
    {
        var hollow = new int[ground.Lattice.Count];
        foreach (var i in drainage.Order)
        {
            var below = drainage.Receiver[i];
            var joined = IsUnderWater(i) && IsUnderWater(below);
            hollow[i] = joined ? hollow[below] : i;
        }
        return hollow;

        bool IsUnderWater(int i) => drainage.FilledM[i] > ground.HeightM[i];
    }

    private static double Meadow(Lattice lattice, int i) =>
        1.5 + (2 * Noise.Layered(lattice.EastKm(i) / 0.4, lattice.NorthKm(i) / 0.4, 2, Seed));
}
