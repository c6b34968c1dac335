using MathNet.Numerics.RootFinding;
using NodaTime;

namespace Glowcast.Engine.Sky;

/// <summary>A moment at which a quantity passes a level.</summary>
/// <param name="Upward">From below to above, or from above to below.</param>
internal readonly record struct Crossing(Instant At, bool Upward);

/// <summary>A smooth quantity over a stretch of time, cut where it turns, so that no passage through a level is missed,
/// however briefly the quantity stays beyond it. Knows nothing of the sky.</summary>
/// <remarks>Cutting costs some fifty evaluations a turn and one a step; each crossing asked for costs about ten more.</remarks>
internal sealed class TimeCurve
{
    private const double TurnToleranceSeconds = 0.05;

    private const double RootAccuracy = 1e-9;

    private readonly Func<Instant, double> value;

    private readonly Instant start;

    // Between one node and the next the quantity only rises or only falls. Seconds from the start; the window's ends belong.
    private readonly List<(double Seconds, double Value)> nodes;

    /// <param name="window">With a start and an end.</param>
    /// <param name="step">Shorter than the time from a turn to the next but one; two turns inside it may be missed.</param>
    /// <param name="value">Defined and smooth one step beyond the window too; of a size such that 1e-9 does not matter.</param>
    /// <exception cref="ArgumentException">The window is empty or has no end, or the step is not positive.</exception>
    public TimeCurve(Interval window, Duration step, Func<Instant, double> value)
    {
        if (!window.HasStart || !window.HasEnd || window.Duration <= Duration.Zero)
            throw new ArgumentException("A window must have a start and a later end.", nameof(window));
        if (step <= Duration.Zero) throw new ArgumentException("A step must be longer than zero.", nameof(step));
        (this.value, start) = (value, window.Start);
        nodes = Cut(window.Duration.TotalSeconds, step.TotalSeconds);
    }

    /// <summary>The lowest value in the window.</summary>
    public double Lowest => nodes.Min(node => node.Value);

    /// <summary>The highest value in the window.</summary>
    public double Highest => nodes.Max(node => node.Value);

    /// <summary>Every passage through a level, in order of time, to better than 0.01 s where the quantity changes by more
    /// than 1e-7 a second. A quantity that touches the level without passing it does not cross.</summary>
    public IReadOnlyList<Crossing> Crossings(double level)
    {
        var found = new List<Crossing>();
        for (var i = 1; i < nodes.Count; i++)
        {
            var (before, after) = (nodes[i - 1], nodes[i]);
            if (before.Value < level == after.Value < level) continue;
            var seconds = Brent.FindRoot(s => At(s) - level, before.Seconds, after.Seconds, RootAccuracy);
            found.Add(new Crossing(start + Duration.FromSeconds(seconds), after.Value > before.Value));
        }
        return found;
    }

    private List<(double Seconds, double Value)> Cut(double lengthS, double wantedStepS)
    {
        var steps = (int)Math.Ceiling(lengthS / wantedStepS);
        var stepS = lengthS / steps;
        var (before, here) = (At(-stepS), At(0));
        var cut = new List<(double, double)>();
        for (var i = 0; i <= steps; i++)
        {
            var (now, after) = (i * stepS, At((i + 1) * stepS));
            var isPeak = here > before && here >= after;
            var isTrough = here < before && here <= after;
            if (isPeak || isTrough)
            {
                var turn = Turn(now - stepS, now + stepS, isPeak ? -1 : 1);
                if (turn > 0 && turn < lengthS) cut.Add((turn, At(turn)));
            }
            cut.Add((now, here));
            (before, here) = (here, after);
        }
        cut.Sort();
        return cut;
    }

    // Golden section: the lowest point of sign × value between a and b.
    private double Turn(double a, double b, int sign)
    {
        const double shorter = 0.38196601125010515; // (3 − √5) / 2
        var (left, right) = (a + (shorter * (b - a)), b - (shorter * (b - a)));
        var (atLeft, atRight) = (sign * At(left), sign * At(right));
        while (b - a > TurnToleranceSeconds)
        {
            if (atLeft < atRight)
            {
                (b, right, atRight) = (right, left, atLeft);
                left = a + (shorter * (b - a));
                atLeft = sign * At(left);
            }
            else
            {
                (a, left, atLeft) = (left, right, atRight);
                right = b - (shorter * (b - a));
                atRight = sign * At(right);
            }
        }
        return (a + b) / 2;
    }

    private double At(double seconds) => value(start + Duration.FromSeconds(seconds));
}
