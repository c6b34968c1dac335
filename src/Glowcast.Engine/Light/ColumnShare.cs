namespace Glowcast.Engine.Light;

/// <summary>How the light comes over the patches of one role: between the middles of two parts that join, the border of light is taken to move evenly.</summary>
/// <remarks>So the share of the lit ground runs on from part to part as it does on the ground, and does not hang on how many there are. docs/model.md, L6.</remarks>
internal static class ColumnShare
{
    // No border of light is carried on past the last part for longer than this.
    private const double LongestOutwardS = 600;

    /// <param name="patches">Of one role, in the order of the scene.</param>
    /// <param name="parts">When the parts of a patch are lit, from the top down.</param>
    /// <returns>Null for nobody.</returns>
    public static ShareOverTime? Of(
        IReadOnlyList<int> patches, IReadOnlyList<GroundPatch> ground, Func<int, IReadOnlyList<IReadOnlyList<Stretch>>> parts, double lengthS)
    {
        if (patches.Count == 0) return null;
        var (ramps, total) = (new List<Ramp>(16 * patches.Count), 0.0);
        IReadOnlyList<Stretch>? above = null;
        for (var at = 0; at < patches.Count; at++)
        {
            var (patch, lit) = (patches[at], parts(patches[at]));
            var weight = ground[patch].Weight / lit.Count;
            total += ground[patch].Weight;
            var next = ground[patch].JoinsNext && at + 1 < patches.Count && patches[at + 1] == patch + 1 ? parts(patch + 1)[0] : null;
            for (var part = 0; part < lit.Count; part++)
            {
                var below = part + 1 < lit.Count ? lit[part + 1] : next;
                AddPart(ramps, lit[part], above, below, weight, lengthS);
                above = below is null ? null : lit[part];
            }
        }
        return ShareOverTime.Of(ramps, total, lengthS);
    }

    private static void AddPart(List<Ramp> ramps, IReadOnlyList<Stretch> lit, IReadOnlyList<Stretch>? above, IReadOnlyList<Stretch>? below, double weight, double lengthS)
    {
        foreach (var stretch in lit)
        {
            var (up, down) = (SameLight(above, stretch), SameLight(below, stretch));
            AddHalf(ramps, stretch, up, down, weight / 2, lengthS);
            AddHalf(ramps, stretch, down, up, weight / 2, lengthS);
        }
    }

    // What a neighbour has of the same light.
    private static Stretch? SameLight(IReadOnlyList<Stretch>? lit, Stretch stretch)
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

    /// <summary>One half of a part, towards one neighbour; without one, as the light came from the other.</summary>
    private static void AddHalf(List<Ramp> ramps, Stretch stretch, Stretch? beside, Stretch? behind, double weight, double lengthS)
    {
        var startS = stretch.StartS <= 0 ? stretch.StartS : Math.Clamp(Edge(stretch.StartS, beside?.StartS, behind?.StartS), 0, lengthS);
        var endS = stretch.EndS >= lengthS ? stretch.EndS : Math.Clamp(Edge(stretch.EndS, beside?.EndS, behind?.EndS), 0, lengthS);
        ramps.Add(Sorted(stretch.StartS, startS, weight));
        ramps.Add(Sorted(stretch.EndS, endS, -weight));
    }

    private static double Edge(double hereS, double? besideS, double? behindS) =>
        besideS is { } beside ? (hereS + beside) / 2
        : behindS is { } behind && Math.Abs(hereS - behind) <= LongestOutwardS ? hereS + ((hereS - behind) / 2)
        : hereS;

    private static Ramp Sorted(double aS, double bS, double weight) => new(Math.Min(aS, bS), Math.Max(aS, bS), weight);
}
