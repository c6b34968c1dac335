namespace Glowcast.Engine.Take;

/// <summary>Whether the sets of a layout show the same, place by place, as repeats of one picture do.</summary>
/// <remarks>docs/model.md, Take eq. 11.</remarks>
internal static class RepeatLikeness
{
    private const double AlikeShare = 0.4;
    private const double OtherShare = 0.7;
    private const double Alike = 1;
    private const double Other = -1.5;

    /// <summary>The logarithm of how much likelier the layout is for it; 0 where nothing is known.</summary>
    public static double Of(SessionFacts facts, AlignedRun run)
    {
        var neighbours = SessionFacts.Median(
            Enumerable.Range(1, Math.Max(0, facts.Count - 1)).Select(i => PatternDistance(facts, i - 1, i)).OfType<double>());
        if (neighbours is not > 0) return 0;
        return run.Sets.Zip(run.Sets.Skip(1)).Sum(pair =>
            (from before in pair.First.Frames
             join again in pair.Second.Frames on before.Position equals again.Position
             let distance = PatternDistance(facts, before.Frame, again.Frame)
             where distance is not null
             select (distance.Value / neighbours.Value) switch { < AlikeShare => Alike, > OtherShare => Other, _ => 0 }).Sum());
    }

    private static double? PatternDistance(SessionFacts facts, int a, int b) =>
        facts.Frames[a].Glance is { } first && facts.Frames[b].Glance is { } second ? first.PatternDistanceTo(second) : null;
}
