using Glowcast.Engine.Capture;
using Glowcast.Engine.Take;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Showing;

/// <summary>A sorted take, to be read.</summary>
internal static class TakePage
{
    public static void Write(Page page, TakeAnswer take, int frames)
    {
        page.Title($"{frames} frames, {take.Sets.Count} {(take.Sets.Count == 1 ? "set" : "sets")}");
        foreach (var caution in take.Cautions) page.Paragraph(caution, Tone.Doubtful);
        if (take.WithoutTime.Count > 0) page.Paragraph($"{take.WithoutTime.Count} frames do not say when they were shot and are not sorted: {Some(take.WithoutTime)}.", Tone.Doubtful);
        foreach (var skipped in take.Skipped) page.Paragraph($"{skipped.File}: {skipped.Reason}", Tone.Doubtful);
        foreach (var (index, set) in take.Sets.Index()) WriteSet(page, index + 1, set);
        foreach (var repeat in take.Repeats) page.Paragraph($"Of sets {string.Join(", ", repeat.Sets)}, set {repeat.Better} is the better. {repeat.Reason}");
        foreach (var rescue in take.Rescues) page.Paragraph($"Set {rescue.Set} lacks row {rescue.Row} frame {rescue.Column}; set {rescue.From} has it, and it joins: {rescue.File}.");
        if (take.Ranking.Count > 1) page.Paragraph($"From the best on: {string.Join("; ", take.Ranking.Select(Ranked))}.");
        foreach (var unseen in take.NotLookedAt) page.Paragraph(unseen);
        if (take.Loose.Count > 0)
        {
            page.Heading("In no set");
            page.List(take.Loose.Select(loose => $"{loose.File}: {loose.Reason}"));
        }
        WriteOwnTimes(page, take.OwnTimes);
        if (take.Compared is { } compared) WriteCompared(page, compared);
    }

    private static string Ranked(RankedSetAnswer set) =>
        $"set {set.Set}{set.IsInWindow switch { true => ", in the light", false => ", outside the light", null => "" }}, {(set.CanBeStitched ? "all frames join" : "not all frames join")}{(set.DriftStops is { } drift ? $", drifts by {drift:0.0} stops" : "")}";

    private static void WriteCompared(Page page, TakeComparedAnswer compared)
    {
        page.Heading("Beside the forecast");
        if (compared.Sets.Count == 0) page.Paragraph("There is no set to compare.");
        page.List(compared.Sets.Select(set =>
            $"Set {set.Set} {(set.IsWithin ? "lies within a window of light" : set.InWindow ? "begins in a window of light and ends after it" : "begins outside every window of light")}{Drift(set)}."));
        page.List(compared.LightSeen.Select(seen =>
            $"{(seen.Change == LightChange.FirstLight ? "First light" : "Last light")} seen at {seen.At} {Say.PlusMinus(seen.UncertaintyS)}{(seen.LateS is { } late ? $", {Say.Time(late)} {(late < 0 ? "before" : "after")} the forecast" : "")}."));
    }

    private static string Drift(SetComparedAnswer set) => set is { DriftStops: { } seen, ForecastDriftStops: { } forecast }
        ? $"; its brightness drifted by {seen:+0.0;-0.0;0.0} stops, {forecast:+0.0;-0.0;0.0} were forecast"
        : "";

    private static string? Cloud(SetCloudAnswer? cloud) => cloud is { SidewaysPx: { } pixels }
        ? $"moves up to {pixels:0} px between neighbours{(cloud.BetweenRowsPx is { } rows ? $", {rows:0} px between rows" : "")}"
        : null;

    private static string? Joins(IReadOnlyList<JoinAnswer> joins)
    {
        var looked = joins.Where(join => join.Kind != JoinKind.NotLooked).ToList();
        if (joins.Count == 0) return null;
        if (looked.Count == 0) return "not looked at";
        var side = looked.Where(join => join is { IsSeen: true, BetweenRows: false }).Select(join => join.Overlap!.Value).Order().ToList();
        return $"{looked.Count(join => join.IsSeen)} of {joins.Count} seen{(side.Count > 0 ? $", overlap {side[0]:0.00} to {side[^1]:0.00}" : "")}";
    }

    private static string? Order(SweptOrderAnswer order)
    {
        var rows = order.Rows switch
        {
            SweptRows.OneWay => $"all rows {Way(order.Sweeps[0].Direction)}",
            SweptRows.BackAndForth => $"back and forth, the first row {Way(order.Sweeps[0].Direction)}",
            SweptRows.Mixed => $"mixed: {string.Join(", ", order.Sweeps.Select(sweep => $"row {sweep.Row} {Way(sweep.Direction)}"))}",
            SweptRows.OneRow => Way(order.Sweeps[0].Direction),
            _ => null,
        };
        return rows is null ? null : rows + order.IsAsPlanned switch { true => ", as planned", false => ", not as planned", null => "" };
    }

    private static string Way(SweepDirection direction) => direction == SweepDirection.LeftToRight ? "left to right" : "right to left";

    private static void WriteSet(Page page, int number, TakeSetAnswer set)
    {
        page.Heading($"Set {number}: {set.First} to {set.Last}");
        page.Paragraph(
            set.Wholeness switch { Wholeness.Whole => "Whole.", Wholeness.NotWhole => "Not whole.", _ => set.IsCompleteByCount ? "Complete by count; its joins were not seen." : "Whether it is whole is uncertain." },
            set.Wholeness switch { Wholeness.Whole => Tone.Good, Wholeness.NotWhole => Tone.Bad, _ => Tone.Doubtful });
        page.Facts(
            ("frames", $"{set.Frames}, in {set.Rows} {(set.Rows == 1 ? "row" : "rows")} of {set.Columns}"),
            ("missing", set.Missing.Count == 0 ? null : Some(set.Missing.Select(missing => $"row {missing.Row} frame {missing.Column}{(missing.After is { } after ? $" (after {after})" : "")}"))),
            ("shot twice", set.Doubled.Count == 0 ? null : Some(set.Doubled)),
            ("changed", set.Changed.Count == 0 ? null : Some(set.Changed.Select(change => $"{change.Setting} from {change.From} to {change.To} at {change.At}"))),
            ("shot", set.Start is { } start ? $"{start} to {set.End}" : null),
            ("time", $"{Say.Time(set.FirstToLastS)} from first frame to last{(set.StepS is { } step ? $", {step:0.0} s from frame to frame" : "")}"),
            ("brightness", set.DriftStops is { } drift ? $"{drift:+0.0;-0.0;0.0} stops from first frame to last" : null),
            ("joins", Joins(set.Joins)),
            ("order", Order(set.Order)),
            ("cloud", Cloud(set.Cloud)),
            ("borders", $"sure to {set.Confidence:0.00}"));
        page.List(set.Reasons);
    }

    private static void WriteOwnTimes(Page page, OwnTimesAnswer? own)
    {
        if (own is null) return;
        page.Heading("Your own times, for the set of the next plan");
        page.Facts(
            ("rotateS", Seconds(own.RotateS)), ("rowChangeS", Seconds(own.RowChangeS)), ("markerS", Seconds(own.MarkerS)), ("repeatGapS", Seconds(own.RepeatGapS)),
            ("from", $"{own.Steps} steps, single ones ± {own.StepSpreadS:0.0} s"));
    }

    private static string? Seconds(double? seconds) => seconds is { } s ? $"{s:0.0}" : null;

    private static string Some(IEnumerable<string> names)
    {
        const int most = 6;
        var all = names.ToList();
        return string.Join(", ", all.Take(most)) + (all.Count > most ? $" and {all.Count - most} more" : "");
    }
}
