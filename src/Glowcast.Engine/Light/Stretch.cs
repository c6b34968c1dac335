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

    /// <summary>Ordered stretches, those that touch as one.</summary>
    internal static List<Stretch> Joined(IEnumerable<Stretch> stretches)
    {
        var joined = new List<Stretch>();
        foreach (var stretch in stretches)
        {
            if (joined.Count > 0 && joined[^1].EndS >= stretch.StartS) joined[^1] = new Stretch(joined[^1].StartS, Math.Max(joined[^1].EndS, stretch.EndS));
            else joined.Add(stretch);
        }
        return joined;
    }

    /// <summary>The stretches from one turning point of a quantity to the next.</summary>
    internal static List<Stretch> Halves(double lengthS, Func<double, double> at)
    {
        const double lookS = 60;
        const double apartS = 1;
        var turns = new List<double> { 0 };
        var rises = Rises(0);
        for (var lastS = 0.0; lastS < lengthS; lastS += lookS)
        {
            var nextS = Math.Min(lengthS, lastS + lookS);
            if (Rises(nextS) == rises) continue;
            turns.Add(TurnBetween(lastS, nextS));
            rises = !rises;
        }
        turns.Add(lengthS);
        return [.. turns.Zip(turns.Skip(1), (start, end) => new Stretch(start, end)).Where(half => half.LengthS > 0)];

        bool Rises(double seconds) => at(seconds + apartS) > at(seconds - apartS);

        double TurnBetween(double fromS, double toS)
        {
            while (toS - fromS > 0.1)
            {
                var middleS = (fromS + toS) / 2;
                if (Rises(middleS) == rises) fromS = middleS;
                else toS = middleS;
            }
            return (fromS + toS) / 2;
        }
    }
}
