using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;

namespace Glowcast.Cli.Showing;

/// <summary>What a photographer needs to know of a set: frames, print, sharpness, time and order.</summary>
internal static class SetFacts
{
    public static void Write(Page page, PlannedSet set)
    {
        var (layout, clock) = (set.Layout, set.Clock);
        page.Facts(
            ("frames", Frames(layout)),
            ("one frame", $"{layout.Field.Horizontal.Degrees:0.00}° x {layout.Field.Vertical.Degrees:0.00}°, {layout.Lens.FocalLength.Millimetres:0.#} mm at f/{layout.Lens.Aperture:0.#}, {layout.Settings.Orientation.ToString().ToLowerInvariant()}"),
            ("turn", Turn(layout)),
            ("pitch", $"row by row from the top: {string.Join(", ", Enumerable.Range(0, layout.Rows).Select(row => $"{layout.FrameAt(row, 0).Pitch.Degrees:+0.0;-0.0;0.0}°"))}"),
            ("picture", $"{layout.WidthPx:0} x {layout.Clean.HeightPx:0} pixels over {layout.Span.Degrees:0.#}° x {layout.Clean.Height.Degrees:0.#}°"),
            ("print", $"{layout.Print.Width.Millimetres / 10:0.0} x {layout.Print.Height.Millimetres / 10:0.0} cm at {layout.Print.Ppi:0.#} pixels per inch, for looking at from {layout.Print.ViewingDistance.Millimetres / 10:0} cm on"),
            ("sharp", $"from {Say.Distance(layout.Sharpness.NearLimit.Metres)} on, focused at infinity{Diffraction(layout.Sharpness)}"),
            ("parallax", $"none from {Say.Distance(layout.Parallax.FreeFrom.Metres)} on, with the pupil {layout.Settings.PupilOffset.Millimetres:0} mm off its axis"),
            ("level error", $"{layout.Settings.LevelError.Degrees:0.##}° costs up to {layout.Levelling.WorstCropPx:0} pixels of height"),
            ("time", Time(clock)),
            ("order", SetWords.Order(clock.Order, layout.Rows)),
            ("why", set.OrderReasons.Count > 0 ? string.Join(" ", set.OrderReasons) : null));
    }

    private static string Frames(SetLayout layout)
    {
        var spares = layout.ColumnsWithSpares - layout.Columns;
        var all = $"{layout.FramesPerSet}: {layout.ColumnsWithSpares} columns x {layout.Rows} {(layout.Rows == 1 ? "row" : "rows")}";
        return spares > 0 ? $"{all}, with {spares / 2} spare at each end of a row" : all;
    }

    private static string Turn(SetLayout layout)
    {
        var across = $"{layout.Across.Step.Degrees:0.00}° from frame to frame ({Say.Share(layout.Settings.Overlap)} overlap), {layout.FrameAt(0, 0).Bearing.Degrees:0.0}° to {layout.FrameAt(0, layout.ColumnsWithSpares - 1).Bearing.Degrees:0.0}°";
        return layout.Rows > 1 ? $"{across}; {layout.Up.Step.Degrees:0.00}° from row to row" : across;
    }

    private static string Diffraction(Sharpness sharpness) => sharpness.Diffraction switch
    {
        Engine.Capture.Diffraction.Noticeable => $"; diffraction shows at 100 % ({sharpness.AiryInPixels:0.0} pixels)",
        Engine.Capture.Diffraction.Strong => $"; diffraction is strong ({sharpness.AiryInPixels:0.0} pixels): open the aperture",
        _ => "",
    };

    private static string Time(SetClock clock)
    {
        var one = $"{Say.Time(clock.FirstToLast)} from first frame to last, {Say.Time(clock.SetLength)} with marker";
        return clock.Repeats > 0 ? $"{one}; {Say.Time(clock.Total)} for all {clock.Repeats + 1} sets" : one;
    }
}
