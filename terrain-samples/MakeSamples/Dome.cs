namespace MakeSamples;

/// <summary>After the rivers, before the ice, the island as a whole is lifted: most inland, not at all at the shore.</summary>
/// <remarks>It sets the floor of the long valley well above the sea.</remarks>
internal static class Dome
{
    private const double HeightM = 320;

    public static void Lift(Ground ground)
    {
        for (var i = 0; i < ground.Lattice.Count; i++)
        {
            var inland = Math.Clamp(1.25 * Coast.Inland(ground.Lattice.EastKm(i), ground.Lattice.NorthKm(i)), 0, 1);
            ground.HeightM[i] += HeightM * inland * (2 - inland);
        }
    }
}
