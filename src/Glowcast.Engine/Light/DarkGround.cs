namespace Glowcast.Engine.Light;

/// <summary>What is dark in a picture.</summary>
public enum DarkSource
{
    /// <summary>Next to nothing is.</summary>
    Nothing,

    /// <summary>Ground nearer than the ridge.</summary>
    Valley,

    /// <summary>The top of the sea of cloud.</summary>
    Deck,

    /// <summary>Slopes of the ridge that face away or lie in a shadow.</summary>
    Ridge,
}

/// <summary>What gives a picture its dark at one moment.</summary>
/// <param name="From">The ground of which most is dark.</param>
/// <param name="Share">Of all ground in the picture, what is dark, 0 to 1.</param>
public readonly record struct DarkGround(DarkSource From, double Share)
{
    // Less is no black of a picture. Common practice, no source.
    private const double Least = 0.05;

    internal static DarkGround At(LightChart chart, double seconds)
    {
        var (all, dark) = (0.0, new double[Enum.GetValues<DarkSource>().Length]);
        for (var i = 0; i < chart.Scene.Patches.Count; i++)
        {
            var patch = chart.Scene.Patches[i];
            all += patch.Weight;
            if (!chart.LitStretches(i).Any(lit => lit.Contains(seconds))) dark[(int)SourceOf(chart.Scene, patch)] += patch.Weight;
        }
        var share = all > 0 ? dark.Sum() / all : 0;
        return new DarkGround(share < Least ? DarkSource.Nothing : (DarkSource)Array.IndexOf(dark, dark.Max()), share);
    }

    private static DarkSource SourceOf(Scene scene, GroundPatch patch) =>
        patch.Role != PatchRole.Valley ? DarkSource.Ridge
        : scene.DeckTop is { } top && patch.Ground.Height.Metres <= top.Metres + DeckSurface.ToleranceM ? DarkSource.Deck
        : DarkSource.Valley;
}
