namespace MakeSamples;

/// <summary>What frost and snow-melt do once the ice is gone: gullies down the sides of the troughs.</summary>
internal static class Gullies
{
    private const double Bite = 0.30;
    private const double LargestAreaM2 = 2e6;
    private const int Rounds = 4;

    public static void Cut(Ground ground)
    {
        for (var round = 1; round <= Rounds; round++)
            CutOnce(ground, Drainage.Of(ground, whim: 40 + round));
        Hillslopes.Creep(ground, Drainage.Of(ground, whim: 40), rounds: 1);
    }

    // Lakes and the floors of the large valleys are left as the ice made them.
    private static void CutOnce(Ground ground, Drainage drainage)
    {
        foreach (var i in drainage.Order)
        {
            var dry = !ground.IsSea[i] && drainage.FilledM[i] <= ground.HeightM[i];
            if (dry && drainage.AreaM2[i] < LargestAreaM2)
                ground.HeightM[i] = RiverErosion.Cut(ground.HeightM[i], ground.HeightM[drainage.Receiver[i]], Bite, drainage.AreaM2[i], drainage.DistanceM[i]);
        }
    }
}
