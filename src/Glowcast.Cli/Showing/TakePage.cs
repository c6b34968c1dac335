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
        if (take.Loose.Count > 0)
        {
            page.Heading("In no set");
            page.List(take.Loose.Select(loose => $"{loose.File}: {loose.Reason}"));
        }
        WriteOwnTimes(page, take.OwnTimes);
    }

    private static void WriteSet(Page page, int number, TakeSetAnswer set)
    {
        page.Heading($"Set {number}: {set.First} to {set.Last}");
        page.Paragraph(
            set.Wholeness switch { Wholeness.Whole => "Whole.", Wholeness.NotWhole => "Not whole.", _ => "Whether it is whole is uncertain." },
            set.Wholeness switch { Wholeness.Whole => Tone.Good, Wholeness.NotWhole => Tone.Bad, _ => Tone.Doubtful });
        page.Facts(
            ("frames", $"{set.Frames}, in {set.Rows} {(set.Rows == 1 ? "row" : "rows")} of {set.Columns}"),
            ("missing", set.Missing.Count == 0 ? null : Some(set.Missing.Select(missing => $"row {missing.Row} frame {missing.Column}{(missing.After is { } after ? $" (after {after})" : "")}"))),
            ("shot twice", set.Doubled.Count == 0 ? null : Some(set.Doubled)),
            ("changed", set.Changed.Count == 0 ? null : Some(set.Changed.Select(change => $"{change.Setting} from {change.From} to {change.To} at {change.At}"))),
            ("shot", set.Start is { } start ? $"{start} to {set.End}" : null),
            ("time", $"{Say.Time(set.FirstToLastS)} from first frame to last{(set.StepS is { } step ? $", {step:0.0} s from frame to frame" : "")}"),
            ("brightness", set.DriftStops is { } drift ? $"{drift:+0.0;-0.0;0.0} stops from first frame to last" : null),
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
