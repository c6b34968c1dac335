using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using static Glowcast.Engine.Tests.Capture.CaptureReference;

namespace Glowcast.Engine.Tests.Capture;

public class FrameGeometryTests
{
    private const string Table = "pano_geometry";

    public static TheoryData<string> Cases => Ids(Table);

    public static TheoryData<string> OneRowCases => Ids(Table, row => row["rows"] == "1");

    [Theory, MemberData(nameof(Cases))]
    public void Frames_are_counted_as_the_reference_counts_them(string id)
    {
        var row = Row(Table, id);
        var set = Layout(row);

        Assert.Equal(row.Number("columns"), set.Columns);
        Assert.Equal(row.Number("rows"), set.Rows);
        Assert.Equal(row.Number("frames"), set.Columns * set.Rows);
        Near(row, "step_yaw_deg", set.Across.Step.Degrees);
        Near(row, "step_pitch_deg", set.Up.Step.Degrees);
        Near(row, "covered_h_deg", set.Across.Covered.Degrees);
        Near(row, "covered_v_deg", set.Up.Covered.Degrees);
    }

    [Theory, MemberData(nameof(Cases))]
    public void Fields_and_pixels_are_those_of_the_reference(string id)
    {
        var row = Row(Table, id);
        var set = Layout(row);

        Near(row, "hfov_deg", set.Field.Horizontal.Degrees);
        Near(row, "vfov_deg", set.Field.Vertical.Degrees);
        Near(row, "f_px", set.Field.FocalLengthPx);
        Near(row, "px_per_deg", set.Field.FocalLengthPx * Math.PI / 180);
        Near(row, "pixel_pitch_um", set.Field.PixelPitchUm);
        Near(row, "width_px_span", set.WidthPx);
        Near(row, "width_px_covered", set.Field.FocalLengthPx * set.Across.Covered.Radians);
        Near(row, "print_w_mm_300", set.PrintAt(300).Width.Millimetres);
        Near(row, "print_w_mm_240", set.PrintAt(240).Width.Millimetres);
        Near(row, "print_w_mm_180", set.PrintAt(180).Width.Millimetres);
    }

    [Theory, MemberData(nameof(OneRowCases))]
    public void One_level_row_stays_clean_to_the_height_of_the_reference(string id)
    {
        var row = Row(Table, id);
        var set = Layout(row);

        Near(row, "clean_vert_deg_one_row", set.Clean.Height.Degrees);
        // The table counts the frame's own pixels there, which differ where the sensor's sizes are rounded.
        var ownPixels = set.Field.PixelsUp / (2 * (set.Field.Vertical / 2).Tan() * set.Field.FocalLengthPx);
        Near(row, "clean_height_px_one_row", set.Clean.HeightPx * ownPixels);
    }

    [Fact]
    public void A_given_number_of_columns_makes_the_picture_as_wide_as_they_cover()
    {
        var row = Row(Table, "F001");
        var asked = Layout(row);
        var given = new SetLayout(asked.Camera, asked.Lens, asked.Settings with { Columns = 3, Rows = 1 }, asked.Picture);

        Assert.Equal((3, 1), (given.Columns, given.Rows));
        Assert.Equal(given.Field.Horizontal.Degrees + (2 * given.Across.Step.Degrees), given.Span.Degrees, 9);
        Assert.Equal(given.Field.FocalLengthPx * given.Span.Radians, given.WidthPx, 6);
    }

    private static SetLayout Layout(ReferenceRow row) => new(
        Camera(row), Lens(row),
        new SetSettings { Orientation = Held(row), Overlap = row.Number("overlap_h"), RowOverlap = row.Number("overlap_v") },
        new Picture(Azimuth.FromDegrees(350), Angle.FromDegrees(row.Number("span_deg")), Angle.FromDegrees(row.Number("vspan_deg")), Angle.Zero));
}
