namespace MakeSamples;

/// <summary>Rock that breaks along its own grain: ribs, towers and notches on the high and steep ground.</summary>
internal static class Crags
{
    private const int Seed = 2203;
    private const double HeightM = 180;

    public static void Add(Ground ground)
    {
        var lattice = ground.Lattice;
        var smooth = (double[])ground.HeightM.Clone();
        for (var i = 0; i < lattice.Count; i++)
            if (!ground.IsSea[i])
                ground.HeightM[i] += HeightM * Barrenness(smooth[i]) * Steepness(lattice, smooth, i) * (Grain(lattice.EastKm(i), lattice.NorthKm(i)) - 0.4);
    }

    // 0 on the level, 1 from a slope of 60 %.
    private static double Steepness(Lattice lattice, double[] height, int i)
    {
        var east = (height[i + 1] - height[i - 1]) / (2 * lattice.EastStepM);
        var north = (height[i + lattice.Size] - height[i - lattice.Size]) / (2 * lattice.NorthStepM);
        return Math.Min(1, Math.Sqrt((east * east) + (north * north)) / 0.6);
    }

    private static double Grain(double eastKm, double northKm)
    {
        var x = eastKm + (0.35 * Noise.Layered(eastKm / 1.5, northKm / 1.5, 2, Seed + 20));
        var y = northKm + (0.35 * Noise.Layered(eastKm / 1.5, northKm / 1.5, 2, Seed + 30));
        return Noise.Ridged(x / 1.3, y / 1.3, 4, Seed);
    }

    // 0 in the meadows, 1 from where nothing grows.
    private static double Barrenness(double heightM)
    {
        var t = Math.Clamp((heightM - 700) / 1300, 0, 1);
        return t * t * (3 - (2 * t));
    }
}
