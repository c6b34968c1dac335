namespace Glowcast.Engine.Take;

/// <summary>How sure it is that a set begins and ends where it was found to: the best layout is compared with the best ones that
/// have a border elsewhere.</summary>
/// <remarks>docs/model.md, Take eq. 14.</remarks>
internal static class BorderConfidence
{
    // The odds are judged, not counted: their logarithm is taken at half its worth.
    private const double Worth = 0.5;

    /// <param name="window">The set with the ones beside it.</param>
    /// <returns>0 to 1.</returns>
    public static double Of(SessionFacts facts, Range window, FittedRhythm fit, AlignedSet set)
    {
        var best = Alignment.Best(facts, window, fit.Rhythm, seen: fit.Seen);
        if (!best.Sets.Any(other => other.First == set.First && other.Last == set.Last)) return 0.5;
        var otherBegin = Alignment.Best(facts, window, fit.Rhythm, seen: fit.Seen, forbidden: new Forbidden(Begin: set.First)).Score;
        var otherEnd = Alignment.Best(facts, window, fit.Rhythm, seen: fit.Seen, forbidden: new Forbidden(End: set.Last)).Score;
        return 1 / (1 + Math.Exp(Worth * (Math.Max(otherBegin, otherEnd) - best.Score)));
    }
}
