namespace Glowcast.Engine.Take;

/// <summary>Which sets a frame is compared with.</summary>
internal enum SeenFrom
{
    AnySet,
    SetsBefore,
    SetsAfter,
}

/// <summary>What each place of the set shows, learned from all sets of a layout at once: how likely a frame belongs to a place,
/// by how it looks beside the frames that other sets have there.</summary>
/// <remarks>docs/model.md, Take eq. 11.</remarks>
internal sealed class SeenPlaces
{
    private const int Witnesses = 2;

    private readonly SessionFacts facts;
    private readonly SeenFrom from;
    private readonly List<int>[] atPlace;
    private readonly int[] setOf;
    private readonly Dictionary<(int Frame, int Position), double> known = [];

    /// <param name="from">Of two sets that do not go together either may be the one that is wrong; seen from one side only, only
    /// one of them moves.</param>
    public SeenPlaces(SessionFacts facts, AlignedRun run, int places, SeenFrom from)
    {
        (this.facts, this.from) = (facts, from);
        atPlace = [.. Enumerable.Range(0, places).Select(_ => new List<int>())];
        setOf = new int[facts.Count];
        Array.Fill(setOf, -1);
        foreach (var (number, set) in run.Sets.Index())
        {
            Array.Fill(setOf, number, set.First, set.Last - set.First + 1);
            foreach (var frame in set.Frames) atPlace[frame.Position].Add(frame.Frame);
        }
    }

    /// <summary>The logarithm of how much likelier a frame looks as it does where it belongs to the place; 0 where nothing is
    /// known.</summary>
    public double Odds(int frame, int position)
    {
        if (known.TryGetValue((frame, position), out var odds)) return odds;
        var nearest = atPlace[position].Where(other => other != frame && (setOf[frame] < 0 || setOf[other] != setOf[frame]) && IsSeen(other, frame))
            .OrderBy(other => Math.Abs(other - frame)).Take(Witnesses).Select(other => facts.Patterns.Between(frame, other)).OfType<double>().ToList();
        return known[(frame, position)] = nearest.Count == 0 ? 0 : RepeatLikeness.OfShare(nearest.Min());
    }

    /// <summary>The same, of all frames of a layout.</summary>
    public double Odds(AlignedRun run) => run.Sets.Sum(set => set.Frames.Sum(frame => Odds(frame.Frame, frame.Position)));

    private bool IsSeen(int other, int frame) => from switch
    {
        SeenFrom.SetsBefore => other < frame,
        SeenFrom.SetsAfter => other > frame,
        _ => true,
    };
}
