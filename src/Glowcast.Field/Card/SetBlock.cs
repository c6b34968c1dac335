using System.Xml.Linq;
using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Field.Words;

namespace Glowcast.Field.Card;

/// <summary>How the set is shot: steps, rows, order and exposure.</summary>
internal static class SetBlock
{
    public static XElement Of(PlannedSet set, ExposureDrift? drift)
    {
        var (layout, clock) = (set.Layout, set.Clock);
        var spares = (layout.ColumnsWithSpares - layout.Columns) / 2;
        return Markup.Section("set", "The set", Markup.Facts(
            ("lens", $"{layout.Lens.FocalLength.Millimetres:0.#} mm, f/{layout.Lens.Aperture:0.#}, {layout.Settings.Orientation.ToString().ToLowerInvariant()}"),
            ("frames", $"{layout.ColumnsWithSpares} × {layout.Rows} = {layout.FramesPerSet}{(spares > 0 ? $", {spares} spare at each end" : "")}; {clock.Repeats + 1} {(clock.Repeats == 0 ? "set" : "sets")}"),
            ("step", $"{layout.Across.Step.Degrees:0.00}°{ClickStopOf(layout)}"),
            ("order", SetWords.Order(clock.Order, layout.Rows)),
            ("pitch", string.Join("; ", RowsAsShot(clock).Select(row => $"{SetWords.Row(row, layout.Rows)} {layout.FrameAt(row, 0).Pitch.Degrees:+0.0;−0.0;0.0}°"))),
            ("time", $"{Say.Time(clock.SetLength)} a set, {Say.Time(clock.Total)} in all"),
            ("marker", layout.Settings.Times.Marker > NodaTime.Duration.Zero ? "hand before the lens, before each set" : null),
            ("bracket", layout.Settings.Bracket.Shots > 1 ? $"{layout.Settings.Bracket.Shots} shots, {layout.Settings.Bracket.StepStops:0.#} stops apart" : null),
            ("exposure", drift is null ? null : Exposure(drift, layout.Rows))));
    }

    private static IEnumerable<int> RowsAsShot(SetClock clock) => clock.Exposures.Where(exposure => exposure.Set == 0).Select(exposure => exposure.Row).Distinct();

    private static string ClickStopOf(SetLayout layout) => layout.Settings.ClickStops.Count == 0
        ? " (no click-stops given)"
        : ClickStop.Nearest(layout.Settings.ClickStops, layout.Across) is { } stop
            ? $"; click-stop {stop.Turn.Degrees:0.##}°, overlap {Say.Share(stop.Overlap)}"
            : "; every click-stop would leave gaps";

    private static string Exposure(ExposureDrift drift, int rows)
    {
        var steps = drift.Rows.Where(row => row.Thirds != 0).Select(row => $"{SetWords.Row(row.Row, rows)} {row.Thirds:+0;−0}/3 stop").ToList();
        var change = $"{drift.FirstToLastStops:+0.00;−0.00} stops first to last ({drift.ToleranceStops:0.00} allowed)";
        return steps.Count > 0 ? $"{change}: {string.Join(", ", steps)} against the first row" : $"{change}: same for all rows";
    }
}
