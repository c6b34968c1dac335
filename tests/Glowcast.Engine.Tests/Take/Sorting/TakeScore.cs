using Glowcast.Engine.Take;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Compares sorted takes with the truth they were made from.</summary>
internal sealed class TakeScore
{
    private readonly List<int> wrong = [];
    private readonly List<string> wronglyWhole = [];
    private int takes;
    private int sets;
    private int exactSets;

    /// <summary>Takes in which every set has exactly its frames, and none is made up.</summary>
    public int ExactTakes => takes - wrong.Count;

    /// <summary>Sets that are all there, and how many of them are called whole, or complete by count where there are no pictures to be joined.</summary>
    public int Complete { get; private set; }

    public int Whole { get; private set; }

    /// <summary>Sets called whole that are not, or that hold a frame too many or too few.</summary>
    public IReadOnlyList<string> WronglyWhole => wronglyWhole;

    public void Count(RandomTake take, SortedTake sorted, int seed)
    {
        var found = sorted.Sets.Select(set => (Set: set, Names: Joined(set.Frames.Select(frame => frame.Frame.Name)))).ToList();
        var truth = take.Sets.Select(Joined).ToList();
        var right = truth.Count(names => found.Exists(set => set.Names == names));
        (takes, sets, exactSets) = (takes + 1, sets + truth.Count, exactSets + right);
        if (right < truth.Count || found.Count != truth.Count) wrong.Add(seed);
        var complete = truth.Where((_, i) => take.Complete[i]).ToHashSet();
        Complete += complete.Count;
        foreach (var (set, names) in found.Where(entry => entry.Set.Wholeness == Wholeness.Whole || entry.Set.IsCompleteByCount))
        {
            Whole++;
            if (!complete.Contains(names)) wronglyWhole.Add($"take {seed}, {set.First.Name} to {set.Last.Name}");
        }
    }

    public override string ToString() =>
        $"{ExactTakes} of {takes} takes, {exactSets} of {sets} sets exact, {Whole} of {Complete} complete sets called whole, {wronglyWhole.Count} wrongly; not exact: {string.Join(' ', wrong)}";

    private static string Joined(IEnumerable<string> names) => string.Join(' ', names);
}
