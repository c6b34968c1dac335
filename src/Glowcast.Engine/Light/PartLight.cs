using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Light;

/// <summary>When the parts of patches are lit: each by the way it faces itself, in a sun that comes and goes evenly from the middle of one patch to the next.</summary>
internal static class PartLight
{
    /// <returns>For each patch, one list a part, from the top down.</returns>
    public static IReadOnlyList<Stretch>[][] Of(Scene scene, LitSearch search, PatchLight[] lights, double lengthS)
    {
        var lit = new IReadOnlyList<Stretch>[lights.Length][];
        Parallel.For(0, lights.Length, AllProcessors.Until(), i => lit[i] = OfPatch(scene, search, lights, i, lengthS));
        return lit;
    }

    private static IReadOnlyList<Stretch>[] OfPatch(Scene scene, LitSearch search, PatchLight[] lights, int patch, double lengthS)
    {
        var (parts, light) = (scene.Patches[patch].Parts, lights[patch]);
        if (parts.Count <= 1) return [light.Lit];
        var above = patch > 0 && scene.Patches[patch - 1].JoinsNext ? lights[patch - 1] : null;
        var below = scene.Patches[patch].JoinsNext ? lights[patch + 1] : null;
        var lit = new IReadOnlyList<Stretch>[parts.Count];
        for (var part = 0; part < lit.Length; part++)
        {
            // From the middle, in patches; down positive.
            var offset = ((part + 0.5) / lit.Length) - 0.5;
            var ground = LitGround.Of(parts[part], scene.PartNormals[patch][part], scene.Facing[patch].SkyView);
            lit[part] = [.. light.InSun.SelectMany(sun => search.Lit(sun with { Time = Moved(sun.Time, offset, above, below, lengthS) }, ground))];
        }
        return lit;
    }

    private static Stretch Moved(Stretch time, double offset, PatchLight? above, PatchLight? below, double lengthS)
    {
        // Towards the neighbour on that side; without one, away from the other.
        var (upper, lower) = (Same(above, time), Same(below, time));
        var (towards, share) = offset < 0
            ? upper is not null ? (upper, -offset) : (lower, offset)
            : lower is not null ? (lower, offset) : (upper, -offset);
        if (towards is not { } other) return time;
        // Where the track begins or ends in the sun there is nothing to move.
        var startS = time.StartS <= 0 ? 0 : Math.Max(0, time.StartS + (share * (other.StartS - time.StartS)));
        var endS = time.EndS >= lengthS ? lengthS : Math.Min(lengthS, time.EndS + (share * (other.EndS - time.EndS)));
        return endS > startS ? new Stretch(startS, endS) : time;
    }

    private static Stretch? Same(PatchLight? light, Stretch time)
    {
        if (light is null) return null;
        foreach (var sun in light.InSun)
            if (sun.Time.StartS < time.EndS && sun.Time.EndS > time.StartS) return sun.Time;
        return null;
    }
}
