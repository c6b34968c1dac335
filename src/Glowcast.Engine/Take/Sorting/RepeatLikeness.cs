namespace Glowcast.Engine.Take;

/// <summary>Whether the sets of a layout show the same, place by place, as repeats of one picture do.</summary>
/// <remarks>docs/model.md, Take eq. 11.</remarks>
internal static class RepeatLikeness
{
    private const double AlikeShare = 0.4;
    private const double OtherShare = 0.7;
    private const double Alike = 4;
    private const double Other = -3;
    private const double OtherSubject = -6;

    /// <summary>The logarithm of how much likelier a share is where two frames show the same place than where they do not.</summary>
    public static double OfShare(double? share) => share switch { null => 0, < AlikeShare => Alike, > OtherShare => Other, _ => 0 };

    /// <summary>The logarithm of how much likelier the pictures are for the layout; 0 where nothing is known.</summary>
    public static double Of(SessionFacts facts, AlignedRun run)
    {
        var latest = new Dictionary<int, int>();
        var sum = 0.0;
        foreach (var set in run.Sets)
        {
            var ofSet = set.Frames.Sum(frame => latest.TryGetValue(frame.Position, out var before) ? OfShare(facts.Patterns.Between(before, frame.Frame)) : 0);
            // The photographer may have turned to something else.
            sum += latest.Count == 0 ? 0 : Math.Max(ofSet, OtherSubject);
            foreach (var frame in set.Frames) latest[frame.Position] = frame.Frame;
        }
        return sum;
    }
}
