namespace MakeSamples;

/// <summary>What frost and snow-melt do once the ice is gone: gullies down the sides of the troughs, between rounded ribs.</summary>
internal static class Weathering
{
    private const double Bite = 0.30;
    private const double LargestGullyM2 = 2e6;
    private const int Rounds = 4;

    public static void Apply(Ground ground)
    {
        for (var round = 0; round < Rounds; round++)
        {
            var drainage = Drainage.Of(ground, whim: 40 + round);
            CutGullies(ground, drainage);
            Hillslopes.Creep(ground, drainage, round % 2);
        }
    }

    // Lakes and the floors of the large valleys are left as the ice made them.
    private static void CutGullies(Ground ground, Drainage drainage)
    {
        foreach (var i in drainage.Order)
        {
            var dry = !ground.IsSea[i] && drainage.FilledM[i] <= ground.HeightM[i];
            if (dry && drainage.AreaM2[i] < LargestGullyM2)
                ground.HeightM[i] = RiverErosion.Cut(ground.HeightM[i], ground.HeightM[drainage.Receiver[i]], Bite, drainage.AreaM2[i], drainage.DistanceM[i]);
        }
    }
}
