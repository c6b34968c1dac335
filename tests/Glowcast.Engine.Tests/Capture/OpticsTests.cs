using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using NodaTime;
using static Glowcast.Engine.Tests.Capture.CaptureReference;

namespace Glowcast.Engine.Tests.Capture;

public class OpticsTests
{
    private const string Table = "pano_optics";

    public static TheoryData<string> Cases => Ids(Table);

    [Theory, MemberData(nameof(Cases))]
    public void Sharpness_is_that_of_the_reference(string id)
    {
        var row = Row(Table, id);
        var field = Field(row);
        var sharp = new Sharpness(field, Lens(row, row.Number("f_number")));

        Near(row, "pixel_pitch_um", field.PixelPitchUm);
        Near(row, "f_px", field.FocalLengthPx);
        Near(row, "airy_diam_um_550nm", sharp.AiryDiameterUm);
        Near(row, "airy_over_pitch", sharp.AiryInPixels);
        Near(row, "coc_mm", sharp.CircleOfConfusion.Millimetres);
        Near(row, "hyperfocal_m", sharp.Hyperfocal.Metres);
    }

    [Theory, MemberData(nameof(Cases))]
    public void Limits_of_focus_are_those_of_the_reference(string id)
    {
        var row = Row(Table, id);
        var sharp = new Sharpness(Field(row), Lens(row, row.Number("f_number")));
        if (row["focus_m"] == "inf")
        {
            Near(row, "near_limit_m", sharp.NearLimit.Metres);
            return;
        }
        var focus = Length.FromMetres(row.Number("focus_m"));
        Near(row, "near_limit_m", sharp.NearLimitAt(focus).Metres);
        if (row["far_limit_m"] == "inf") Assert.Null(sharp.FarLimitAt(focus));
        // Close to the hyperfocal distance the far limit is a quotient of two small differences: seven digits remain.
        else Near(row, "far_limit_m", sharp.FarLimitAt(focus)!.Value.Metres, LastDigit + (1e-7 * row.Number("far_limit_m")));
    }

    [Theory, MemberData(nameof(Cases))]
    public void Parallax_is_that_of_the_reference(string id)
    {
        var row = Row(Table, id);
        var parallax = new Parallax(Field(row), Step(row), Length.FromMillimetres(row.Number("npp_offset_mm")));

        Near(row, "step_yaw_deg", Step(row).Degrees);
        Near(row, "parallax_px", parallax.ShiftPx(Length.FromMetres(row.Number("near_subject_m")), Length.FromMetres(row.Number("background_m"))));
        Near(row, "min_subject_m_for_1px", parallax.FreeFrom.Metres);
    }

    [Theory, MemberData(nameof(Cases))]
    public void Tilt_and_roll_cost_what_the_reference_says(string id)
    {
        var row = Row(Table, id);
        var level = new Levelling(
            Field(row), Step(row), Angle.FromDegrees(row.Number("span_deg")), Angle.FromDegrees(row.Number("level_err_deg")));

        Near(row, "wave_amp_px", level.WavePx);
        Near(row, "tilt_side_drop_px", level.SideSlopePx);
        Near(row, "tilt_front_bow_px", level.BowPx);
        Near(row, "clean_height_px_roll", level.HeightWithRollPx(Angle.FromDegrees(row.Number("roll_deg"))));
        Assert.True(level.WorstCropPx >= Math.Max(level.SideSlopePx, level.BowPx));
    }

    [Theory, MemberData(nameof(Cases))]
    public void Cloud_drift_and_viewing_distance_are_those_of_the_reference(string id)
    {
        var row = Row(Table, id);
        var drift = new CloudDrift(
            Field(row), row.Number("cloud_speed_ms"), Length.FromMetres(row.Number("cloud_dist_m")),
            Duration.FromSeconds(row.Number("frame_gap_s")), overlapPx: 1000);

        Near(row, "cloud_drift_px", drift.Pixels);
        Near(row, "acuity_view_dist_mm", new PrintSize(1, 1, row.Number("ppi")).ViewingDistance.Millimetres);
    }

    [Theory, MemberData(nameof(Cases))]
    public void Points_of_a_pitched_frame_fall_on_the_cylinder_where_the_reference_has_them(string id)
    {
        var row = Row(Table, id);
        var field = Field(row);
        var frame = new Frame(field, 0, 0, Azimuth.FromDegrees(359), Angle.FromDegrees(row.Number("pitch_deg")), spare: false);

        foreach (var (edge, up) in new[] { ("top", 1), ("bot", -1) })
        {
            var corner = frame.PointAt(1, up);
            Near(row, $"{edge}_corner_theta_deg", corner.Turn.Degrees);
            Near(row, $"{edge}_corner_cyl_px", field.FocalLengthPx * corner.Altitude.Tan());
            Near(row, $"{edge}_mid_cyl_px", field.FocalLengthPx * frame.PointAt(0, up).Altitude.Tan());
        }
    }

    private static FrameField Field(ReferenceRow row) => new(Camera(row), Lens(row, row.Number("f_number")), Held(row));

    private static Angle Step(ReferenceRow row) => Field(row).Horizontal * (1 - row.Number("overlap_h"));
}
