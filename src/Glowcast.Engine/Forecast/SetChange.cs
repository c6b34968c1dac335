using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>A set as it might be shot instead.</summary>
/// <param name="Plan">With the lens and the span to lay it out from.</param>
/// <param name="IsSplit">One half of the span after the other.</param>
internal sealed record SetVariant(Plan Plan, SetSettings Settings, bool IsSplit);

/// <summary>One way to change a set.</summary>
/// <param name="Change">What to do, in a sentence without its full stop.</param>
/// <param name="Apply">Null where it changes nothing.</param>
internal sealed record SetChange(string Change, Func<SetVariant, SetVariant?> Apply)
{
    /// <summary>Common practice: seams need this much.</summary>
    public const double LeastOverlap = 0.30;

    /// <summary>All there are for a set, but for how many safety sets.</summary>
    public static IReadOnlyList<SetChange> Of(PlannedSet set) =>
    [
        new("Sweep the other way", variant => Reordered(variant, order => order with { Direction = Opposite(order.Direction) })),
        new("Sweep the rows back and forth", variant => set.Layout.Rows == 1 || variant.Settings.Order.Rows == RowOrder.BackAndForth
            ? null : Reordered(variant, order => order with { Rows = RowOrder.BackAndForth })),
        Sets(0),
        new($"Overlap the frames by {LeastOverlap * 100:0} %", variant => variant.Settings.Overlap <= LeastOverlap
            ? null : variant with { Settings = variant.Settings with { Overlap = LeastOverlap } }),
        new($"Hold the camera in {Turned(set.Layout.Settings.Orientation).ToString().ToLowerInvariant()} format", variant =>
            variant with { Settings = variant.Settings with { Orientation = Turned(variant.Settings.Orientation) } }),
        new("Shoot one row and crop", variant => set.Layout.Rows == 1 || variant.Settings.Rows == 1
            ? null : variant with { Settings = variant.Settings with { Rows = 1 } }),
        new("Split the span: shoot one half with its safety sets, then the other", variant =>
            variant.IsSplit || variant.Settings.Columns is not null || variant.Settings.SpareFrames == 0 // The halves meet in their spare frames.
            ? null : variant with { IsSplit = true }),
        .. set.Plan.OtherLenses.Where(lens => lens.FocalLength != set.Layout.Lens.FocalLength).Select(Taking),
    ];

    /// <summary>Only part of the span.</summary>
    public static SetChange Part(BearingSpan part) => new(
        $"Shoot {part.From.Degrees:0.#}° to {part.To.Degrees:0.#}° only, where the light is",
        variant => variant.IsSplit || variant.Plan.Span == part ? null : variant with { Plan = variant.Plan with { Span = part } });

    /// <summary>Some bearings stay dark in the picture.</summary>
    public static SetChange Dark(BearingSpan strip) => new(
        $"Let {strip.From.Degrees:0.#}° to {strip.To.Degrees:0.#}° stay dark",
        variant => variant.Plan.DarkStrips.Contains(strip) ? null : variant with { Plan = variant.Plan with { DarkStrips = [.. variant.Plan.DarkStrips, strip] } });

    /// <summary>So many safety sets.</summary>
    public static SetChange Sets(int repeats) => new(
        repeats == 0 ? "Shoot one set, without a safety set" : $"Shoot {repeats} safety {(repeats == 1 ? "set" : "sets")}",
        variant => variant.Settings.Repeats <= repeats ? null : variant with { Settings = variant.Settings with { Repeats = repeats } });

    /// <summary>Both, this one first.</summary>
    public SetChange And(SetChange other) => new(
        $"{Change}; {char.ToLowerInvariant(other.Change[0])}{other.Change[1..]}",
        variant => Apply(variant) is { } changed ? other.Apply(changed) : null);

    private static SetChange Taking(Lens lens) => new(
        $"Take the {lens.FocalLength.Millimetres:0.#} mm lens", variant => variant with { Plan = variant.Plan with { Gear = variant.Plan.Gear! with { Lens = lens } } });

    private static SetVariant Reordered(SetVariant variant, Func<ShootingOrder, ShootingOrder> change) =>
        variant with { Settings = variant.Settings with { Order = change(variant.Settings.Order) } };

    private static SweepDirection Opposite(SweepDirection direction) =>
        direction == SweepDirection.LeftToRight ? SweepDirection.RightToLeft : SweepDirection.LeftToRight;

    private static Orientation Turned(Orientation orientation) =>
        orientation == Orientation.Portrait ? Orientation.Landscape : Orientation.Portrait;
}
