namespace Glowcast.Engine.Take;

/// <summary>How the pictures of a session lie to one another. Neighbours are looked at at once, others when they are asked for.</summary>
internal sealed class JoinsSeen
{
    private const int AtOnce = 48;
    private const int KeptPictures = 48;
    private const int LeastForUsual = 3;
    private const double NearStep = 0.1;
    private const double NearDown = 0.1;
    private const double LeastOverlap = 0.1;
    private const double NearReach = 0.06;
    private const double NearAlike = 0.5;
    private const double NearOthers = 0.65;
    private const double NearSurety = 3.5;
    private const double NearWellAlike = 0.6;
    private const double NearWellSurety = 2.5;
    private const double NearVeryAlike = 0.85;
    private const double NearLeastSurety = 1.5;

    private readonly IReadOnlyList<ShotFrame> frames;
    private readonly Join[] next;
    private readonly Dictionary<long, Join> known = [];
    private readonly Dictionary<int, JoinSearch.Picture?> pictures = [];
    private readonly Queue<int> kept = new();

    /// <param name="areComparable">Whether two frames are shot with one lens, one way up, at one size.</param>
    /// <param name="plannedStep">From a frame to its neighbour, in widths of a frame; what is usual where too few joins are seen.</param>
    /// <param name="stop">Ends the looking.</param>
    public JoinsSeen(IReadOnlyList<ShotFrame> frames, Func<int, int, bool> areComparable, double plannedStep, CancellationToken stop)
    {
        this.frames = frames;
        this.areComparable = areComparable;
        next = new Join[frames.Count];
        var ranges = Enumerable.Range(0, (frames.Count + AtOnce - 1) / AtOnce).Select(part => part * AtOnce).ToList();
        Parallel.ForEach(ranges, new ParallelOptions { CancellationToken = stop }, from =>
        {
            JoinSearch.Picture? before = from > 0 ? PictureOf(from - 1) : null;
            for (var i = from; i < Math.Min(frames.Count, from + AtOnce); i++)
            {
                var here = PictureOf(i);
                next[i] = i > 0 && areComparable(i - 1, i) ? Look(before, here) : default;
                before = here;
            }
        });
        var steps = next.Where(join => join is { Kind: JoinKind.Beside, IsSure: true }).Select(join => Math.Abs(join.Across)).ToList();
        UsualStep = steps.Count >= LeastForUsual ? SessionFacts.Median(steps)!.Value : plannedStep;
        HasViews = frames.Any(frame => frame.View is not null);
    }

    private readonly Func<int, int, bool> areComparable;

    /// <summary>Whether anything could be looked at.</summary>
    public bool HasViews { get; }

    /// <summary>From a frame to its neighbour in a row, in widths of a frame.</summary>
    public double UsualStep { get; }

    public Join Between(int a, int b)
    {
        if (a > b) return Between(b, a) is var turned ? turned with { Across = -turned.Across, Down = -turned.Down } : default;
        if (b == a + 1) return next[b];
        var pair = ((long)a << 32) | (uint)b;
        if (!known.TryGetValue(pair, out var join)) known[pair] = join = areComparable(a, b) ? Look(Kept(a), Kept(b)) : default;
        return join;
    }

    /// <summary>How one lies to the other near where it should, where another place is no likelier for sure.</summary>
    /// <returns>Null where they are not alike there.</returns>
    public Join? Near(int a, int b, double across, double down, double likenessOfOthers)
    {
        if (Kept(a) is not { } first || Kept(b) is not { } second || JoinSearch.Near(first, second, across, down, NearReach) is not { } place) return null;
        var isAlike = place.Likeness >= NearOthers * likenessOfOthers
            && ((place.Likeness >= NearAlike && place.Surety >= NearSurety) || (place.Likeness >= NearWellAlike && place.Surety >= NearWellSurety) || (place.Likeness >= NearVeryAlike && place.Surety >= NearLeastSurety));
        return isAlike ? new Join(Math.Abs(across) > Math.Abs(down) ? JoinKind.Beside : JoinKind.AboveOrBelow, place.Across, place.Down, place.Likeness, false) : null;
    }

    /// <summary>One goes on beside the other, by a step as is usual here: the sweep goes on.</summary>
    public bool GoesOn(int a, int b) => IsStep(Between(a, b));

    /// <summary>The pictures join, so that they can be stitched.</summary>
    public static bool CanBeStitched(Join join) => join is { Kind: JoinKind.Beside or JoinKind.AboveOrBelow or JoinKind.Same } && join.Overlap >= LeastOverlap;

    /// <summary>By about a step to the side.</summary>
    public bool IsStep(Join join) =>
        join.Kind == JoinKind.Beside && (Math.Abs(Math.Abs(join.Across) - UsualStep) <= NearStep || (join.IsSure && Math.Abs(join.Across) > UsualStep / 2 && Math.Abs(join.Across) < 1.5 * UsualStep))
        && (join.IsSure || Math.Abs(join.Down) <= NearDown);

    private static Join Look(JoinSearch.Picture? a, JoinSearch.Picture? b)
    {
        if (a is null || b is null) return default;
        return Join.Of(JoinSearch.Of(a, b), a.IsFaint || b.IsFaint);
    }

    private JoinSearch.Picture? Kept(int frame)
    {
        if (pictures.TryGetValue(frame, out var picture)) return picture;
        if (kept.Count == KeptPictures) pictures.Remove(kept.Dequeue());
        kept.Enqueue(frame);
        return pictures[frame] = PictureOf(frame);
    }

    private JoinSearch.Picture? PictureOf(int frame) => frames[frame].View is { } view ? new JoinSearch.Picture(view) : null;
}
