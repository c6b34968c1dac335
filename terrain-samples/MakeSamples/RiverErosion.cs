namespace MakeSamples;

/// <summary>Rivers cut the rising ground: dz/dt = U − K·A^m·S, and no slope stays steeper than its rock can stand.</summary>
/// <remarks>Stream-power law with the implicit scheme of Braun and Willett (2013, Geomorphology 180–181: 170–179), which
/// takes steps of any length. m = 3/8, so that A^m needs square roots only.</remarks>
internal static class RiverErosion
{
    private const int RockSeed = 907;

    /// <param name="riseM">How far each point is lifted in this step.</param>
    /// <param name="bite">K times the length of the step [m^(1/4)].</param>
    /// <param name="steepest">The greatest slope the rock of each point holds, as rise over run.</param>
    public static void Cut(Ground ground, Drainage drainage, double[] riseM, double[] bite, double[] steepest)
    {
        foreach (var i in drainage.Order)
        {
            if (ground.IsSea[i])
                continue;
            var below = ground.HeightM[drainage.Receiver[i]];
            var distance = drainage.DistanceM[i];
            var lifted = Math.Max(ground.HeightM[i], drainage.FilledM[i]) + riseM[i];
            var height = Cut(lifted, below, bite[i], drainage.AreaM2[i], distance);
            ground.HeightM[i] = Math.Min(height, below + (steepest[i] * distance));
        }
    }

    /// <summary>The height a stream leaves behind, given that of the point it drains to.</summary>
    public static double Cut(double height, double below, double bite, double areaM2, double distanceM)
    {
        var cut = bite * PowerThreeEighths(areaM2) / distanceM;
        return (height + (cut * below)) / (1 + cut);
    }

    /// <summary>How easily the rock at each point is cut, about 1: soft and hard bands some kilometres wide.</summary>
    public static double[] Softness(Lattice lattice)
    {
        var softness = new double[lattice.Count];
        for (var i = 0; i < softness.Length; i++)
            softness[i] = 1 + (0.45 * Math.Clamp(Noise.Layered(lattice.EastKm(i) / 3.5, lattice.NorthKm(i) / 3.5, 4, RockSeed), -1, 1));
        return softness;
    }

    private static double PowerThreeEighths(double area)
    {
        var quarter = Math.Sqrt(Math.Sqrt(area));
        return quarter * Math.Sqrt(quarter);
    }
}
