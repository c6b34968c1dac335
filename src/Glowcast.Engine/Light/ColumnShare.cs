namespace Glowcast.Engine.Light;

/// <summary>How the light comes over the patches of one role: between the middles of two that join, the border of light is taken to move evenly.</summary>
/// <remarks>So the share of the lit ground runs on from patch to patch as it does on the ground, and does not hang on how many patches there are. docs/model.md, L6.</remarks>
internal static class ColumnShare
{
    // No border of light is carried on past the last patch for longer than this.
    private const double LongestOutwardS = 600;

    /// <param name="patches">Of one role, in the order of the scene.</param>
    /// <param name="lit">When a patch is lit.</param>
    /// <returns>Null for nobody.</returns>
    public static ShareOverTime? Of(IReadOnlyList<int> patches, IReadOnlyList<GroundPatch> ground, Func<int, IReadOnlyList<Stretch>> lit, double lengthS)
    {
        if (patches.Count == 0) return null;
        var (ramps, total) = (new List<Ramp>(4 * patches.Count), 0.0);
        for (var at = 0; at < patches.Count; at++)
        {
            var patch = patches[at];
            var weight = ground[patch].Weight;
            total += weight;
            var above = at > 0 && patches[at - 1] == patch - 1 && ground[patch - 1].JoinsNext ? lit(patch - 1) : null;
            var below = ground[patch].JoinsNext && at + 1 < patches.Count && patches[at + 1] == patch + 1 ? lit(patch + 1) : null;
            foreach (var stretch in lit(patch))
            {
                var (up, down) = (Neighbour(above, stretch), Neighbour(below, stretch));
                AddHalf(ramps, stretch, up, down, weight / 2, lengthS);
                AddHalf(ramps, stretch, down, up, weight / 2, lengthS);
            }
        }
        return ShareOverTime.Of(ramps, total, lengthS);
    }

    // What the neighbour has of the same light.
    private static Stretch? Neighbour(IReadOnlyList<Stretch>? lit, Stretch stretch)
    {
        if (lit is null) return null;
        Stretch? found = null;
        foreach (var other in lit)
        {
            if (other.StartS >= stretch.EndS || other.EndS <= stretch.StartS) continue;
            found = found is { } before ? new Stretch(before.StartS, other.EndS) : other;
        }
        return found;
    }

    /// <summary>One half of a patch, towards one neighbour; without one, as the light came from the other.</summary>
    private static void AddHalf(List<Ramp> ramps, Stretch stretch, Stretch? beside, Stretch? behind, double weight, double lengthS)
    {
        var startS = Math.Clamp(Edge(stretch.StartS, beside?.StartS, behind?.StartS), 0, lengthS);
        var endS = Math.Clamp(Edge(stretch.EndS, beside?.EndS, behind?.EndS), 0, lengthS);
        if (stretch.StartS <= 0) startS = stretch.StartS;
        if (stretch.EndS >= lengthS) endS = stretch.EndS;
        ramps.Add(Sorted(stretch.StartS, startS, weight));
        ramps.Add(Sorted(stretch.EndS, endS, -weight));
    }

    private static double Edge(double hereS, double? besideS, double? behindS) =>
        besideS is { } beside ? (hereS + beside) / 2
        : behindS is { } behind && Math.Abs(hereS - behind) <= LongestOutwardS ? hereS + ((hereS - behind) / 2)
        : hereS;

    private static Ramp Sorted(double aS, double bS, double weight) => new(Math.Min(aS, bS), Math.Max(aS, bS), weight);
}
