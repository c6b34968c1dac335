using Glowcast.Engine.Light;

namespace Glowcast.Field.Pictures;

/// <summary>How much direct light each patch of a scene has at a moment, 0 to 1.</summary>
/// <remarks>Lit patches have 1. The penumbra is known by the mean of each column: what that mean has left over belongs to the
/// patches of the ridge that are about to be lit or have just been. The page does the same.</remarks>
internal static class PatchLights
{
    // The sun needs about so long to climb over an edge, or to sink behind it.
    private const double PenumbraS = 240;

    // An unlit patch sees less of the disc than a lit one must.
    private const double MostUnlit = 0.9;

    public static float[] At(LightChart chart, double seconds)
    {
        var patches = chart.Scene.Patches;
        var away = Enumerable.Range(0, patches.Count).Select(patch => SecondsFromLight(chart.LitStretches(patch), seconds)).ToList();
        var light = away.ConvertAll(awayS => awayS == 0 ? 1f : 0f).ToArray();
        var means = chart.MeanDiscShares(role => role != PatchRole.Valley);
        var minute = Math.Clamp((int)(seconds / 60), 0, chart.Minutes - 1);
        foreach (var column in Enumerable.Range(0, patches.Count).Where(patch => patches[patch].Role != PatchRole.Valley).GroupBy(patch => patches[patch].Column))
        {
            var near = column.Where(patch => away[patch] is > 0 and <= PenumbraS).ToList();
            if (near.Count == 0) continue;
            var lit = column.Where(patch => away[patch] == 0).Sum(patch => patches[patch].Weight);
            var mean = means[(minute * chart.Scene.Columns) + column.Key] / 255.0;
            var left = ((mean * column.Sum(patch => patches[patch].Weight)) - lit) / near.Sum(patch => patches[patch].Weight);
            foreach (var patch in near) light[patch] = (float)Math.Clamp(left, 0, MostUnlit);
        }
        return light;
    }

    private static double SecondsFromLight(IReadOnlyList<Stretch> lit, double seconds) => lit.Count == 0
        ? double.PositiveInfinity
        : lit.Min(stretch => stretch.StartS <= seconds && seconds < stretch.EndS ? 0 : Math.Max(0.1, Math.Max(stretch.StartS - seconds, seconds - stretch.EndS)));
}
