namespace Glowcast.Engine.Take;

/// <summary>How frames that stand near one another in a session look beside each other, as shares of what is usual there.</summary>
/// <remarks>docs/model.md, Take eq. 1.</remarks>
internal sealed class GlancePairs
{
    /// <summary>Frames farther apart in the session are not compared.</summary>
    public const int Farthest = 4;

    private const double OneSideOnly = 2.5;
    private const double WellJoined = 1.6;

    private readonly double?[,] distances;
    private readonly double?[,] mismatches;
    private readonly bool[] joins;

    /// <param name="areComparable">Whether two frames are shot alike, so that they count for what is usual.</param>
    /// <param name="overlap">The share of a frame that its neighbour repeats.</param>
    public GlancePairs(IReadOnlyList<ShotFrame> frames, Func<int, int, bool> areComparable, double overlap)
    {
        var columns = Glance.ColumnsOf(overlap);
        distances = new double?[Farthest, frames.Count];
        mismatches = new double?[Farthest, frames.Count];
        joins = new bool[frames.Count];
        for (var apart = 1; apart <= Farthest; apart++)
            for (var i = apart; i < frames.Count; i++)
            {
                if (frames[i - apart].Glance is not { } before || frames[i].Glance is not { } next) continue;
                distances[apart - 1, i] = before.DistanceTo(next);
                var (rightwards, leftwards) = (before.StripTo(next, columns).Mismatch, next.StripTo(before, columns).Mismatch);
                mismatches[apart - 1, i] = Math.Min(rightwards, leftwards);
                if (apart == 1) joins[i] = Math.Max(rightwards, leftwards) > OneSideOnly * Math.Min(rightwards, leftwards);
            }
        var neighbours = Enumerable.Range(1, Math.Max(0, frames.Count - 1)).Where(i => areComparable(i - 1, i)).ToList();
        ToShares(distances, neighbours);
        ToShares(mismatches, neighbours);
    }

    /// <summary>How much two frames differ: near 0 for the same picture twice, 1 as neighbours usually do; null where unknown.</summary>
    public double? Difference(int before, int next) => At(distances, before, next);

    /// <summary>How badly the side of one frame joins on to the side of the other: 1 as neighbours usually do; null where unknown.</summary>
    public double? Mismatch(int before, int next) => At(mismatches, before, next);

    /// <summary>One side of a frame joins on to the frame before it, and the other side does not: nothing can be missing between.</summary>
    public bool JoinsSurely(int next) => joins[next] && mismatches[0, next] < WellJoined;

    private static double? At(double?[,] shares, int before, int next) => next - before is >= 1 and <= Farthest and var apart ? shares[apart - 1, next] : null;

    private static void ToShares(double?[,] values, IEnumerable<int> neighbours)
    {
        var usual = SessionFacts.Median(neighbours.Select(i => values[0, i]).OfType<double>());
        for (var apart = 0; apart < values.GetLength(0); apart++)
            for (var i = 0; i < values.GetLength(1); i++)
                values[apart, i] = usual is > 0 ? values[apart, i] / usual : null;
    }
}
