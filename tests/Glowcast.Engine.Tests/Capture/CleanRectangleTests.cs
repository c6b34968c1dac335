using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using static Glowcast.Engine.Tests.Capture.CaptureReference;

namespace Glowcast.Engine.Tests.Capture;

public class CleanRectangleTests
{
    private const string Table = "pano_clean_rect";

    public static TheoryData<string> Cases => Ids(Table);

    [Theory, MemberData(nameof(Cases))]
    public void The_trimmed_rectangle_is_that_of_the_reference(string id)
    {
        var row = Row(Table, id);
        var clean = Layout(row).Clean;

        Near(row, "trim_w_deg", clean.Width.Degrees);
        Near(row, "trim_w_px", clean.WidthPx);
        Near(row, "trim_bottom_px", clean.BottomPx);
        Near(row, "trim_top_px", clean.TopPx);
        Near(row, "trim_h_px", clean.HeightPx);
        Near(row, "trim_megapixels", clean.Megapixels);
        Near(row, "clean_bottom_elev_deg", clean.Bottom.Degrees);
        Near(row, "clean_top_elev_deg", clean.Top.Degrees);
    }

    [Theory, MemberData(nameof(Cases))]
    public void The_full_rectangle_is_that_of_the_reference(string id)
    {
        var row = Row(Table, id);
        var set = Layout(row);
        var clean = set.CleanFull;

        Near(row, "f_px", set.Field.FocalLengthPx);
        Near(row, "full_w_deg", clean.Width.Degrees);
        Near(row, "full_w_px", clean.WidthPx);
        Near(row, "full_bottom_px", clean.BottomPx);
        Near(row, "full_top_px", clean.TopPx);
        Near(row, "full_h_px", clean.HeightPx);
    }

    [Fact]
    public void Spare_frames_widen_the_rectangle_by_their_steps_and_keep_its_height()
    {
        var set = Layout(Row(Table, "FR008"), spares: 2);

        Assert.Equal(set.Clean.Width.Degrees + (4 * set.Across.Step.Degrees), set.CleanWithSpares.Width.Degrees, 9);
        Assert.Equal(set.Clean.HeightPx, set.CleanWithSpares.HeightPx, 9);
    }

    private static SetLayout Layout(ReferenceRow row, int spares = 0) => new(
        Camera(row), Lens(row),
        new SetSettings
        {
            Orientation = Held(row),
            Overlap = row.Number("overlap_h"),
            RowOverlap = row.Number("overlap_v"),
            Columns = (int)row.Number("columns"),
            Rows = (int)row.Number("rows"),
            SpareFrames = spares,
        },
        new Picture(Azimuth.FromDegrees(10), Angle.FromDegrees(10), Angle.FromDegrees(10), Angle.FromDegrees(row.Number("pitch_centre_deg"))));
}
