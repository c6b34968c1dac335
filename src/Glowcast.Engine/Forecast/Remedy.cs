using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>A change of the set that makes it fit, worked out in full.</summary>
/// <param name="Change">What to do, in a sentence.</param>
/// <param name="Cost">What it costs the print, in a sentence.</param>
/// <param name="Set">The changed set.</param>
/// <param name="Fit">The changed set laid over the light.</param>
public sealed record Remedy(string Change, string Cost, PlannedSet Set, SetFit Fit);

/// <summary>Looks for what would make a set fit.</summary>
internal static class Remedies
{
    private const double LeastOverlap = 0.30;

    /// <summary>What works, the cheapest for the print first.</summary>
    public static IReadOnlyList<Remedy> For(Plan plan, LightChart chart, IReadOnlyList<LightWindow> windows, PlannedSet set, Angle? crest)
    {
        var settings = set.Layout.Settings;
        var working = new List<Remedy>();
        foreach (var (change, cost, changed) in Candidates(set, crest))
        {
            if (changed == settings) continue;
            if (TryLayOut(plan, changed, crest) is not { } other) continue;
            var fit = FitSearch.Fit(chart, windows, other);
            if (fit.IsPossible) working.Add(new Remedy(change, cost, other, fit));
        }
        return working;
    }

    private static IEnumerable<(string Change, string Cost, SetSettings Settings)> Candidates(PlannedSet set, Angle? crest)
    {
        var settings = set.Layout.Settings;
        var order = settings.Order;
        var other = order.Direction == SweepDirection.LeftToRight ? SweepDirection.RightToLeft : SweepDirection.LeftToRight;
        yield return ("Sweep the other way.", "Nothing.", settings with { Order = order with { Direction = other } });
        if (crest is { } highest && set.Layout.Rows > 1)
            yield return ("Shoot the row with the ridge first.", "Nothing.", settings with { Order = order with { FirstRow = set.RowOf(highest) } });
        if (set.Layout.Rows > 1)
            yield return ("Sweep the rows back and forth.", "Nothing, unless cloud moves: neighbours above each other are farther apart in time.", settings with { Order = order with { Rows = RowOrder.BackAndForth } });
        if (settings.Repeats > 0)
            yield return ("Shoot one set, without the safety set.", "No second set to fall back on.", settings with { Repeats = 0 });
        var overlap = Math.Min(settings.Overlap, LeastOverlap);
        yield return ($"Overlap the frames by {LeastOverlap:0%}.", "Less room for seams.", settings with { Overlap = overlap });
        yield return ($"Overlap the frames by {LeastOverlap:0%} and shoot one set.", "Less room for seams, and no second set.", settings with { Overlap = overlap, Repeats = 0 });
        var turned = settings.Orientation == Orientation.Portrait ? Orientation.Landscape : Orientation.Portrait;
        yield return ($"Hold the camera in {turned.ToString().ToLowerInvariant()} format.", "The height of the picture changes.", settings with { Orientation = turned });
        if (set.Layout.Rows > 1)
            yield return ("Shoot one row.", "A lower picture.", settings with { Rows = 1, Order = order with { FirstRow = 0 } });
    }

    private static PlannedSet? TryLayOut(Plan plan, SetSettings settings, Angle? crest)
    {
        try
        {
            return PlannedSet.Of(plan, settings, crest, []);
        }
        catch (BadInputException)
        {
            // A change that cannot be shot is no remedy.
            return null;
        }
    }
}
