using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>The set of a plan, laid out and timed.</summary>
/// <param name="Plan">What it was laid out from.</param>
/// <param name="Layout">Where each frame points.</param>
/// <param name="Clock">When each exposure is made.</param>
/// <param name="OrderReasons">Why it is shot in this order, a sentence each; empty where the plan says the order itself.</param>
public sealed record PlannedSet(Plan Plan, SetLayout Layout, SetClock Clock, IReadOnlyList<string> OrderReasons)
{
    /// <summary>Lays the set out; the rows are pitched so that the crest stands where the plan wants it in the print.</summary>
    /// <param name="crest">Apparent altitude of the highest crest; null to look level.</param>
    /// <exception cref="BadInputException">It cannot be shot this way.</exception>
    public static PlannedSet Of(Plan plan, Angle? crest = null) => Of(plan, plan.Set, crest, []);

    /// <inheritdoc cref="Of(Plan, Angle?)"/>
    internal static PlannedSet Of(Plan plan, SetSettings settings, Angle? crest, IReadOnlyList<string> orderReasons)
    {
        var (camera, lens) = plan.Gear ?? throw new ArgumentException("The plan has no camera.", nameof(plan));
        try
        {
            var picture = new Picture(plan.Span, plan.Vertical, plan.CentrePitch ?? Angle.Zero);
            if (plan.CentrePitch is null && crest is { } highest)
                picture = new Picture(plan.Span, plan.Vertical, CrestPlacement.CentrePitch(camera, lens, settings, picture, highest, plan.CrestShare));
            var layout = new SetLayout(camera, lens, settings, picture);
            return new PlannedSet(plan, layout, new SetClock(layout), orderReasons);
        }
        catch (ArgumentException impossible)
        {
            // Without the name of the parameter that .NET adds to the sentence.
            throw new BadInputException("set", impossible.Message.Split(" (Parameter '")[0]);
        }
    }

    /// <summary>The same, every frame exposed for so long.</summary>
    internal PlannedSet Exposed(Duration exposure)
    {
        var settings = Layout.Settings with { Times = Layout.Settings.Times with { Exposure = exposure } };
        var layout = new SetLayout(Layout.Camera, Layout.Lens, settings, Layout.Picture);
        return this with { Layout = layout, Clock = new SetClock(layout) };
    }

    /// <summary>The row in which a crest stands nearest the middle; 0 is the topmost.</summary>
    public int RowOf(Angle crest) => Enumerable.Range(0, Layout.Rows).MinBy(row => (Layout.FrameAt(row, 0).Pitch - crest).Abs());
}
