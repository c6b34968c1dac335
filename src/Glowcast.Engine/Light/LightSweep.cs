using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>The side of the span that changes first, as the camera sees it.</summary>
public enum SweepSide
{
    /// <summary>Both sides together, within 45 seconds.</summary>
    None,

    Left,
    Right,
}

/// <summary>How light comes over the ridge from bearing to bearing, or leaves it.</summary>
/// <param name="First">The bearing that changes first on the side from which it comes.</param>
/// <param name="Last">The bearing that changes last on the other side.</param>
/// <param name="From">The side that changes first: left and right thirds of the span compared.</param>
/// <param name="Across">From one end of the span to the other, by the mean moments of its outer thirds.</param>
public sealed record LightSweep(Azimuth First, Azimuth Last, SweepSide From, Duration Across)
{
    private const double TogetherS = 45;

    // The middles of the outer thirds lie two thirds of the span apart.
    private const double ThirdsToSpan = 1.5;

    /// <summary>How the ridge gains the light that it has at a moment; null where it has none on either side.</summary>
    internal static LightSweep? GainOf(LightChart chart, double seconds) => GainOf(SpanLight.Of(chart), seconds);

    /// <inheritdoc cref="GainOf(LightChart, double)"/>
    internal static LightSweep? GainOf(SpanLight span, double seconds) => Of(span, seconds, lit => lit.StartS);

    /// <summary>How it loses it.</summary>
    internal static LightSweep? LossOf(LightChart chart, double seconds) => LossOf(SpanLight.Of(chart), seconds);

    /// <inheritdoc cref="LossOf(LightChart, double)"/>
    internal static LightSweep? LossOf(SpanLight span, double seconds) => Of(span, seconds, lit => lit.EndS);

    private static LightSweep? Of(SpanLight span, double seconds, Func<Stretch, double> change)
    {
        var columns = span.Bearings.Count;
        // Light that lasts into the other half of the day is lost there, and says nothing of this one.
        var half = span.HalfAt(seconds);
        var changes = (
            from column in Enumerable.Range(0, columns)
            from lit in span.Lit[column] ?? []
            where lit.StartS <= seconds && seconds < lit.EndS && half.Contains(change(lit))
            select (Column: column, At: change(lit))).ToList();
        var third = columns / 3;
        var left = changes.FindAll(entry => entry.Column < third);
        var right = changes.FindAll(entry => entry.Column >= columns - third);
        if (left.Count == 0 || right.Count == 0) return null;
        var lagS = right.Average(entry => entry.At) - left.Average(entry => entry.At);
        var from = Math.Abs(lagS) < TogetherS ? SweepSide.None : lagS > 0 ? SweepSide.Left : SweepSide.Right;
        var (first, last) = from switch { SweepSide.Left => (left, right), SweepSide.Right => (right, left), _ => (changes, changes) };
        return new LightSweep(
            BearingOf(first.MinBy(entry => entry.At).Column), BearingOf(last.MaxBy(entry => entry.At).Column), from,
            Duration.FromSeconds(ThirdsToSpan * Math.Abs(lagS)));

        Azimuth BearingOf(int column) => span.Bearings[column];
    }
}
