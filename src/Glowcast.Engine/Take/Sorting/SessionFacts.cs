namespace Glowcast.Engine.Take;

/// <summary>The frames of one camera in the order they were shot, with what every decision on them needs.</summary>
/// <remarks>Frames are named by their place in that order.</remarks>
internal sealed class SessionFacts
{
    private const double SameFocal = 0.02;
    private const double SameExposureStops = 0.2;
    private const double ChangesWhereLocked = 0.35;
    private const double CoarseClockS = 1;
    private const double FineClockS = 0.01;

    private readonly double[] seconds;
    private readonly double[] markerOdds;
    private readonly double[] exposureStops;

    /// <param name="frames">In the order they were shot; all have a time.</param>
    /// <param name="seconds">When each was shot, from any zero.</param>
    /// <param name="overlap">The share of a frame that its neighbour repeats.</param>
    /// <param name="stop">Ends whatever works on them.</param>
    public SessionFacts(IReadOnlyList<ShotFrame> frames, IReadOnlyList<double> seconds, double overlap, CancellationToken stop = default)
    {
        Stop = stop;
        Frames = frames;
        this.seconds = [.. seconds];
        exposureStops = [.. frames.Select(frame => frame.Settings.ExposureStops)];
        ClockStepS = frames.Any(frame => frame.HasSubSeconds) ? FineClockS : CoarseClockS;
        markerOdds = MarkerLikeness.Of(frames);
        var pairs = Enumerable.Range(1, Math.Max(0, frames.Count - 1)).ToList();
        var changes = pairs.Count(i => SameGeometry(i - 1, i) && !SameExposure(i - 1, i, 0));
        ExposureChanges = changes < ChangesWhereLocked * pairs.Count ? 0 : changes / (double)Math.Max(1, pairs.Count);
        Looks = new GlancePairs(frames, SameGeometry, overlap);
        Patterns = new PatternShares(this);
        Joins = new JoinsSeen(frames, SameGeometry, 1 - overlap, stop);
        Numbers = new FrameNumbers(frames);
        HalfDark();
    }

    public IReadOnlyList<ShotFrame> Frames { get; }

    /// <summary>Looked at by whatever works long on them.</summary>
    public CancellationToken Stop { get; }

    public int Count => Frames.Count;

    /// <summary>The finest step of the camera's clock.</summary>
    public double ClockStepS { get; }

    /// <summary>Whether any frame looks like a marker frame.</summary>
    public bool HasMarkers { get; private set; }

    /// <summary>The share of neighbours whose exposures differ; 0 where it is so small that the exposure was locked.</summary>
    public double ExposureChanges { get; }

    /// <summary>How frames near one another look beside each other.</summary>
    public GlancePairs Looks { get; }

    /// <summary>How any two frames look beside each other, whatever their brightness.</summary>
    public PatternShares Patterns { get; }

    /// <summary>How their pictures lie to one another.</summary>
    public JoinsSeen Joins { get; }

    /// <summary>What the numbers in their names say of frames that were deleted.</summary>
    public FrameNumbers Numbers { get; }

    public double GapS(int from, int to) => seconds[to] - seconds[from];

    /// <summary>How much better a frame is explained as a marker frame than as a picture: a difference of logarithms.</summary>
    public double MarkerOdds(int frame) => markerOdds[frame];

    public bool LooksLikeMarker(int frame) => markerOdds[frame] > 2;

    // A hand before half of the lens: dark in part, unlike both neighbours, and joined to neither.
    private void HalfDark()
    {
        for (var frame = 0; frame < Count; frame++)
            if (MarkerLikeness.IsHalfDark(Frames, frame) && IsBroken(frame - 1, frame) && IsBroken(frame, frame + 1)) markerOdds[frame] = Math.Max(markerOdds[frame], MarkerLikeness.HalfDark);
        HasMarkers = Enumerable.Range(0, Count).Any(LooksLikeMarker);

        bool IsBroken(int a, int b) => a < 0 || b >= Count || !Joins.Between(a, b).IsSeen;
    }

    /// <summary>Same focal length, lie and size, as far as they are known.</summary>
    public bool SameGeometry(int a, int b)
    {
        var (first, second) = (Frames[a].Settings, Frames[b].Settings);
        return (first.FocalLength is not { } f || second.FocalLength is not { } g || Math.Abs(f.Metres - g.Metres) <= SameFocal * f.Metres)
            && (first.Lie is null || second.Lie is null || first.Lie == second.Lie)
            && (first.PixelsWide is null || second.PixelsWide is null || (first.PixelsWide, first.PixelsHigh) == (second.PixelsWide, second.PixelsHigh));
    }

    /// <param name="longerStops">How much longer the second is meant to be exposed.</param>
    public bool SameExposure(int a, int b, double longerStops) =>
        Math.Abs(exposureStops[a] - exposureStops[b] - longerStops) <= SameExposureStops;

    internal static double? Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        return sorted.Count == 0 ? null : (sorted[(sorted.Count - 1) / 2] + sorted[sorted.Count / 2]) / 2;
    }
}
