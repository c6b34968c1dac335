namespace Glowcast.Engine.Light;

/// <summary>Something that comes into the light over a stretch of time, evenly, or at once where the stretch has no length.</summary>
/// <param name="FromS">When its first part does [s].</param>
/// <param name="ToS">When its last part does.</param>
/// <param name="Weight">Of all of it; negative for what leaves the light.</param>
internal readonly record struct Ramp(double FromS, double ToS, double Weight);

/// <summary>Which share of a weighted crowd is in the light at any moment: a function of time that jumps where one of them does, and rises or falls straight
/// where one comes into the light little by little.</summary>
public sealed class ShareOverTime
{
    // Sums of many weights must not miss a threshold by their rounding.
    private const double Rounding = 1e-8;

    // What comes into the light within so short a time does so at once: steeper slopes would lose their sums to rounding.
    private const double AtOnceS = 0.05;

    // From each time on to the next: the share then, and how it goes on [1/s].
    private readonly double[] times;
    private readonly double[] shares;
    private readonly double[] slopes;

    private ShareOverTime(double lengthS, double[] times, double[] shares, double[] slopes) =>
        (LengthS, this.times, this.shares, this.slopes) = (lengthS, times, shares, slopes);

    /// <summary>The moment after which nothing is said [s].</summary>
    public double LengthS { get; }

    /// <summary>Adds up who is in the light when.</summary>
    /// <param name="members">The stretches of each member, and its weight.</param>
    public static ShareOverTime Of(IEnumerable<(IReadOnlyList<Stretch> Stretches, double Weight)> members, double lengthS)
    {
        var (ramps, total) = (new List<Ramp>(), 0.0);
        foreach (var (stretches, weight) in members)
        {
            total += weight;
            foreach (var stretch in stretches)
            {
                ramps.Add(new Ramp(stretch.StartS, stretch.StartS, weight));
                ramps.Add(new Ramp(stretch.EndS, stretch.EndS, -weight));
            }
        }
        return Of(ramps, total, lengthS);
    }

    /// <param name="total">The weight of all there is.</param>
    internal static ShareOverTime Of(IReadOnlyCollection<Ramp> ramps, double total, double lengthS)
    {
        var changes = new ShareChanges(2 * ramps.Count);
        foreach (var ramp in ramps)
        {
            if (ramp.ToS - ramp.FromS < AtOnceS) changes.Add((ramp.FromS + ramp.ToS) / 2, ramp.Weight, 0);
            else
            {
                var slope = ramp.Weight / (ramp.ToS - ramp.FromS);
                changes.Add(ramp.FromS, 0, slope);
                changes.Add(ramp.ToS, 0, -slope);
            }
        }
        return Of(changes.InOrder(), total, lengthS);
    }

    /// <param name="changes">In order of time.</param>
    /// <param name="total">The weight of all there is.</param>
    internal static ShareOverTime Of(ReadOnlySpan<ShareChange> changes, double total, double lengthS)
    {
        var (times, shares, slopes) = (new List<double> { 0 }, new List<double> { 0 }, new List<double> { 0 });
        var (sum, slopeSum, atS) = (0.0, 0.0, 0.0);
        foreach (var (seconds, jump, slope) in changes)
        {
            sum += (slopeSum * (Math.Max(0, seconds) - atS)) + jump;
            atS = Math.Max(0, seconds);
            slopeSum += slope;
            var (share, rate) = total > 0 ? (Math.Clamp(sum / total, 0, 1), slopeSum / total) : (0, 0);
            if (atS <= times[^1]) (shares[^1], slopes[^1]) = (share, rate);
            else
            {
                times.Add(atS);
                shares.Add(share);
                slopes.Add(rate);
            }
        }
        return new ShareOverTime(lengthS, [.. times], [.. shares], [.. slopes]);
    }

    /// <summary>Weighted sum of several, over their total.</summary>
    /// <param name="members">Each counts within its stretch alone.</param>
    internal static ShareOverTime Sum(IEnumerable<(ShareOverTime Share, double Weight, Stretch Within)> members, double total, double lengthS)
    {
        var changes = new ShareChanges(0);
        foreach (var (share, weight, within) in members) share.AddChanges(changes, weight, within);
        return Of(changes.InOrder(), total, lengthS);
    }

    /// <summary>As a share of another, 1 from there on.</summary>
    internal ShareOverTime Against(double enough)
    {
        var (newTimes, newShares, newSlopes) = (new List<double>(), new List<double>(), new List<double>());
        for (var i = 0; i < times.Length; i++)
        {
            var endS = i + 1 < times.Length ? times[i + 1] : Math.Max(LengthS, times[i]);
            var (before, slope) = (shares[i] / enough, slopes[i] / enough);
            var crossS = slope == 0 ? double.NaN : times[i] + ((1 - before) / slope);
            var crosses = crossS > times[i] && crossS < endS;
            Add(times[i], before, before > 1 || (before == 1 && slope > 0) ? 0 : slope);
            if (crosses) Add(crossS, 1, slope > 0 ? 0 : slope);
        }
        return new ShareOverTime(LengthS, [.. newTimes], [.. newShares], [.. newSlopes]);

        void Add(double seconds, double share, double slope)
        {
            newTimes.Add(seconds);
            newShares.Add(Math.Min(1, share));
            newSlopes.Add(slope);
        }
    }

    /// <summary>How it goes within a stretch, as changes of a sum.</summary>
    internal void AddChanges(ShareChanges changes, double weight, Stretch within)
    {
        var (value, slope) = (0.0, 0.0);
        for (var i = Before(within.StartS); i < times.Length && times[i] < within.EndS; i++)
        {
            var atS = Math.Max(times[i], within.StartS);
            var here = shares[i] + (slopes[i] * (atS - times[i]));
            if (here != value || slopes[i] != slope) changes.Add(atS, weight * (here - value), weight * (slopes[i] - slope));
            var endS = Math.Min(i + 1 < times.Length ? times[i + 1] : within.EndS, within.EndS);
            (value, slope) = (here + (slopes[i] * (endS - atS)), slopes[i]);
        }
        if (within.EndS < LengthS && (value != 0 || slope != 0)) changes.Add(within.EndS, -weight * value, -weight * slope);
    }

    /// <summary>The greatest that it ever is.</summary>
    public double Greatest => Enumerable.Range(0, times.Length).Max(i => Math.Max(shares[i], EndOf(i)));

    /// <summary>The greatest within a stretch.</summary>
    public double GreatestIn(Stretch stretch)
    {
        var greatest = Math.Max(At(stretch.StartS), At(Math.BitDecrement(stretch.EndS)));
        for (var i = 0; i < times.Length; i++)
        {
            if (times[i] >= stretch.StartS && times[i] < stretch.EndS) greatest = Math.Max(greatest, shares[i]);
            if (i + 1 < times.Length && times[i + 1] > stretch.StartS && times[i + 1] <= stretch.EndS) greatest = Math.Max(greatest, EndOf(i));
        }
        return greatest;
    }

    /// <summary>The moments at which it changes, or changes otherwise than before; the first of them 0.</summary>
    internal IReadOnlyList<double> Steps => times;

    public double At(double seconds)
    {
        var i = Before(seconds);
        return Math.Clamp(shares[i] + (slopes[i] * Math.Max(0, seconds - times[i])), 0, 1);
    }

    /// <summary>Its mean over a stretch.</summary>
    public double MeanOver(Stretch stretch)
    {
        if (stretch.LengthS <= 0) return At(stretch.StartS);
        var sum = 0.0;
        for (var i = Before(stretch.StartS); i < times.Length && times[i] < stretch.EndS; i++)
        {
            var (start, end) = (Math.Max(times[i], stretch.StartS), i + 1 < times.Length ? Math.Min(times[i + 1], stretch.EndS) : stretch.EndS);
            sum += (shares[i] + (slopes[i] * (((start + end) / 2) - times[i]))) * (end - start);
        }
        return Math.Clamp(sum / stretch.LengthS, 0, 1);
    }

    public List<Stretch> AtLeast(double share) => NotNegative(value => value - share + Rounding);

    public List<Stretch> AtMost(double share) => NotNegative(value => share - value + Rounding);

    private int Before(double seconds)
    {
        var i = Array.BinarySearch(times, seconds);
        return Math.Max(0, i >= 0 ? i : ~i - 1);
    }

    // Where it comes to just before the next time.
    private double EndOf(int i) => i + 1 < times.Length ? Math.Clamp(shares[i] + (slopes[i] * (times[i + 1] - times[i])), 0, 1) : shares[i];

    /// <summary>When something that grows or falls with the share is not negative.</summary>
    private List<Stretch> NotNegative(Func<double, double> spare)
    {
        var found = new List<Stretch>();
        for (var i = 0; i < times.Length && times[i] < LengthS; i++)
        {
            var (startS, endS) = (times[i], i + 1 < times.Length ? Math.Min(times[i + 1], LengthS) : LengthS);
            var (before, after) = (spare(shares[i]), spare(Math.Clamp(shares[i] + (slopes[i] * (endS - startS)), 0, 1)));
            if (before < 0 && after < 0) continue;
            var crossS = before < 0 != after < 0 ? startS + ((endS - startS) * before / (before - after)) : double.NaN;
            Add(before < 0 ? crossS : startS, after < 0 ? crossS : endS);
        }
        return found;

        void Add(double startS, double endS)
        {
            if (endS <= startS) return;
            if (found.Count > 0 && found[^1].EndS == startS) found[^1] = new Stretch(found[^1].StartS, endS);
            else found.Add(new Stretch(startS, endS));
        }
    }
}
