namespace Glowcast.Engine.Take;

/// <summary>A frame of another set that can stand in for one that is missing.</summary>
/// <param name="Set">The set that lacks it, by its place in the take, from 0.</param>
/// <param name="Missing">What it lacks.</param>
/// <param name="From">The set that has it.</param>
/// <param name="Frame">It shows what is missing, and joins on to those beside it.</param>
public sealed record Rescue(int Set, MissingFrame Missing, int From, ShotFrame Frame)
{
    internal static IEnumerable<Rescue> Among(IReadOnlyList<FoundSet> sets, SameSubject subjects) =>
        from set in sets.Index()
        from missing in set.Item.Missing
        where missing.Shot == 0
        let found = sets.Index().Where(other => other.Index != set.Index && subjects.Are(set.Item, other.Item) == true)
            .Select(other => (other.Index, Frame: other.Item.Frames.FirstOrDefault(frame => (frame.Row, frame.Column, frame.Shot) == (missing.Row, missing.Column, missing.Shot))?.Frame))
            .FirstOrDefault(other => other.Frame is not null && Joins(set.Item, missing, other.Frame, subjects))
        where found.Frame is not null
        select new Rescue(set.Index, missing, found.Index, found.Frame!);

    // On to all that stand beside it, one at least.
    private static bool Joins(FoundSet set, MissingFrame missing, ShotFrame frame, SameSubject subjects)
    {
        var beside = set.Frames.Where(other => other is { Shot: 0, IsAgain: false } && other.Row == missing.Row && Math.Abs(other.Column - missing.Column) == 1).ToList();
        return beside.Count > 0 && beside.TrueForAll(other => subjects.Between(other.Frame, frame).Kind == JoinKind.Beside);
    }
}
