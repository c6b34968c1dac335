using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>In which order a plan's set is shot under some light (docs/model.md, F6).</summary>
internal static class SetOrder
{
    // The ends of a window go through instants and back, which moves them by nanoseconds.
    private const double SameMomentS = 1e-3;

    /// <summary>The set, with the row of the crest first, swept as the plan says or else as the longest window asks.</summary>
    /// <param name="windows">Of the day; empty without light.</param>
    public static PlannedSet For(Plan plan, SpanLight span, IReadOnlyList<Stretch> windows, Angle crest)
    {
        var first = PlannedSet.Of(plan, crest);
        var ridgeRow = first.RowOf(crest);
        if (!plan.ChooseDirection)
            return PlannedSet.Of(plan, plan.Set with { Order = plan.Set.Order with { FirstRow = ridgeRow } }, crest, []);
        var (loses, gains) = windows.Count > 0 ? SidesOf(span, windows.MaxBy(window => window.LengthS)) : default;
        var choice = OrderChoice.For(new OrderSituation(first.Layout.Rows, ridgeRow, loses, gains, plan.Conditions.Cloud));
        // How rows follow one another is the plan's to say; the light decides the side and the row to begin with.
        var order = choice.Order with { Rows = plan.Set.Order.Rows };
        return PlannedSet.Of(plan, plan.Set with { Order = order }, crest, [.. choice.Reasons.Take(2)]);
    }

    /// <summary>The side of the ridge that loses its light first when that ends the window, or gains it first when that opens it.</summary>
    private static (Side? Loses, Side? Gains) SidesOf(SpanLight span, Stretch window)
    {
        var ridge = span.RidgeLit();
        var middleS = (window.StartS + window.EndS) / 2;
        return (
            window.EndS < span.LengthS && ridge.Any(lit => IsSame(lit.EndS, window.EndS)) ? SideOf(LightSweep.LossOf(span, middleS)) : null,
            window.StartS > 0 && ridge.Any(lit => IsSame(lit.StartS, window.StartS)) ? SideOf(LightSweep.GainOf(span, middleS)) : null);
    }

    private static bool IsSame(double aS, double bS) => Math.Abs(aS - bS) < SameMomentS;

    private static Side? SideOf(LightSweep? sweep) => sweep?.From switch
    {
        SweepSide.Left => Side.Left,
        SweepSide.Right => Side.Right,
        _ => null,
    };
}
