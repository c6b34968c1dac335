namespace Glowcast.Engine.Take;

/// <summary>Ranks the sets of a sorted take, chooses among repeats, and finds frames that can stand in for missing ones.</summary>
public static class TakeRanking
{
    /// <summary>The same take, its sets ranked by whether they were shot in a window of light too.</summary>
    /// <param name="isInWindow">Of the set at a place; null where nothing is known of it.</param>
    public static SortedTake Ranked(this SortedTake take, Func<int, bool?> isInWindow)
    {
        ArgumentNullException.ThrowIfNull(take);
        var (ranking, subjects) = (RankedSet.Of(take.Sets, isInWindow), new SameSubject());
        return take with { Ranking = ranking, Choices = BetterRepeat.Among(take.Sets, ranking, subjects), Rescues = [.. Rescue.Among(take.Sets, subjects)] };
    }
}
