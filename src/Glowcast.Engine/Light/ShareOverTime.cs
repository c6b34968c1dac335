namespace Glowcast.Engine.Light;

/// <summary>A stretch of a day, in seconds after its start: start included, end excluded.</summary>
public readonly record struct Stretch(double StartS, double EndS)
{
    public double LengthS => EndS - StartS;

    public bool Contains(double seconds) => StartS <= seconds && seconds < EndS;

    /// <summary>What two ordered lists of separate stretches have in common.</summary>
    public static List<Stretch> Common(IReadOnlyList<Stretch> a, IReadOnlyList<Stretch> b)
    {
        var common = new List<Stretch>();
        for (var (i, j) = (0, 0); i < a.Count && j < b.Count;)
        {
            var (start, end) = (Math.Max(a[i].StartS, b[j].StartS), Math.Min(a[i].EndS, b[j].EndS));
            if (end > start) common.Add(new Stretch(start, end));
            if (a[i].EndS < b[j].EndS) i++;
            else j++;
        }
        return common;
    }

    /// <summary>When a quantity is positive that is looked at in even steps.</summary>
    /// <param name="crossS">Where it changes its sign between a look and the one before [s]; where a straight line does, when left out.</param>
    /// <param name="ahead">By its value at a look, how many looks on it is to be looked at again; at every one, when left out.</param>
    internal static List<Stretch> Above(
        int looks, double stepS, Func<int, double> at, Func<int, double>? crossS = null, Func<int, double, int>? ahead = null)
    {
        var (stretches, before, lastS, endS) = (new List<Stretch>(), at(0), 0.0, (looks - 1) * stepS);
        double? start = before > 0 ? 0 : null;
        for (var look = 0; look < looks - 1;)
        {
            var next = Math.Min(looks - 1, look + (ahead?.Invoke(look, before) ?? 1));
            var now = at(next);
            if (before > 0 != now > 0)
            {
                // Of looks passed over, the first one at which it has changed.
                while (next - look > 1)
                {
                    var value = at(look + 1);
                    if (before > 0 != value > 0) (next, now) = (look + 1, value);
                    else (look, before) = (look + 1, value);
                }
                lastS = Math.Clamp(crossS?.Invoke(next) ?? (stepS * (look + (before / (before - now)))), lastS, endS);
                if (start is { } begun) stretches.Add(new Stretch(begun, lastS));
                start = start is null ? lastS : null;
            }
            (look, before) = (next, now);
        }
        if (start is { } open) stretches.Add(new Stretch(open, endS));
        return stretches;
    }
}

/// <summary>Which share of a weighted crowd is in the light at any moment: a step function of time.</summary>
public sealed class ShareOverTime
{
    // Sums of many weights must not miss a threshold by their rounding.
    private const double Rounding = 1e-9;

    private readonly double[] times;
    private readonly double[] shares;

    private ShareOverTime(double lengthS, double[] times, double[] shares) => (LengthS, this.times, this.shares) = (lengthS, times, shares);

    /// <summary>The moment after which nothing is said [s].</summary>
    public double LengthS { get; }

    /// <summary>Adds up who is in the light when.</summary>
    /// <param name="members">The stretches of each member, and its weight.</param>
    public static ShareOverTime Of(IEnumerable<(IReadOnlyList<Stretch> Stretches, double Weight)> members, double lengthS)
    {
        var changes = new List<(double Seconds, double Weight)>();
        var total = 0.0;
        foreach (var (stretches, weight) in members)
        {
            total += weight;
            foreach (var stretch in stretches)
            {
                changes.Add((stretch.StartS, weight));
                changes.Add((stretch.EndS, -weight));
            }
        }
        changes.Sort((a, b) => a.Seconds.CompareTo(b.Seconds));
        var (times, shares, sum) = (new List<double> { 0 }, new List<double> { 0 }, 0.0);
        foreach (var (seconds, weight) in changes)
        {
            sum += weight;
            var share = total > 0 ? Math.Clamp(sum / total, 0, 1) : 0;
            if (seconds <= times[^1]) shares[^1] = share;
            else
            {
                times.Add(seconds);
                shares.Add(share);
            }
        }
        return new ShareOverTime(lengthS, [.. times], [.. shares]);
    }

    public double Greatest => shares.Max();

    /// <summary>The moments at which it changes, the first of them 0.</summary>
    internal IReadOnlyList<double> Steps => times;

    public double At(double seconds)
    {
        var i = Array.BinarySearch(times, seconds);
        return shares[Math.Max(0, i >= 0 ? i : ~i - 1)];
    }

    /// <summary>Its mean over a stretch.</summary>
    public double MeanOver(Stretch stretch)
    {
        if (stretch.LengthS <= 0) return At(stretch.StartS);
        var i = Array.BinarySearch(times, stretch.StartS);
        var sum = 0.0;
        for (i = Math.Max(0, i >= 0 ? i : ~i - 1); i < times.Length && times[i] < stretch.EndS; i++)
        {
            var end = i + 1 < times.Length ? Math.Min(times[i + 1], stretch.EndS) : stretch.EndS;
            sum += shares[i] * (end - Math.Max(times[i], stretch.StartS));
        }
        return sum / stretch.LengthS;
    }

    public List<Stretch> AtLeast(double share) => Where(value => value >= share - Rounding);

    public List<Stretch> AtMost(double share) => Where(value => value <= share + Rounding);

    private List<Stretch> Where(Func<double, bool> holds)
    {
        var found = new List<Stretch>();
        double? start = null;
        for (var i = 0; i < times.Length; i++)
        {
            if (holds(shares[i])) start ??= times[i];
            else if (start is { } begun)
            {
                found.Add(new Stretch(begun, times[i]));
                start = null;
            }
        }
        if (start is { } open && open < LengthS) found.Add(new Stretch(open, LengthS));
        return found;
    }
}
