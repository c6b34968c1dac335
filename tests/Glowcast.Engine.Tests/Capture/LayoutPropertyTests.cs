using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Capture;

public class LayoutPropertyTests
{
    [Property(Arbitrary = [typeof(Shoots)])]
    public void More_overlap_never_takes_fewer_frames(Shoot shoot, Overlaps overlaps)
    {
        var less = shoot.Layout(shoot.Settings with { Overlap = overlaps.Less, RowOverlap = overlaps.Less });
        var more = shoot.Layout(shoot.Settings with { Overlap = overlaps.More, RowOverlap = overlaps.More });

        Assert.True(more.Columns >= less.Columns);
        Assert.True(more.Rows >= less.Rows);
        Assert.True(more.FramesPerSet >= less.FramesPerSet);
    }

    [Property(Arbitrary = [typeof(Shoots)])]
    public void A_longer_lens_never_takes_fewer_columns_or_rows(Shoot shoot, PositiveInt moreMm)
    {
        var shorter = shoot.Layout();
        var longer = (shoot with { Lens = new Lens(shoot.Lens.FocalLength + Length.FromMillimetres(moreMm.Get), 8) }).Layout();

        Assert.True(longer.Columns >= shorter.Columns);
        Assert.True(longer.Rows >= shorter.Rows);
    }

    [Property(Arbitrary = [typeof(Shoots)])]
    public void Frames_cover_the_span_asked_for_and_one_column_fewer_would_not(Shoot shoot)
    {
        var set = shoot.Layout();

        Assert.True(set.Across.Covered.Degrees >= shoot.Picture.Horizontal.Degrees - 1e-9);
        Assert.True(set.Up.Covered.Degrees >= shoot.Picture.Vertical.Degrees - 1e-9);
        if (set.Columns > 1 && !set.Across.Closed)
            Assert.True((set.Across.Covered - set.Across.Step).Degrees < shoot.Picture.Horizontal.Degrees);
    }

    [Property(Arbitrary = [typeof(Shoots)], MaxTest = 30)]
    public void Rays_through_the_clean_rectangles_all_meet_a_frame_that_is_not_spare(Shoot shoot)
    {
        var set = shoot.Layout(shoot.Settings with { SpareFrames = 0 });

        Assert.All(Rays(set, set.Clean.Width, set.Clean), ray => Assert.True(set.Covers(ray.Bearing, ray.Altitude), $"{ray}"));
        Assert.All(Rays(set, set.CleanFull.Width, set.CleanFull), ray => Assert.True(set.Covers(ray.Bearing, ray.Altitude), $"{ray}"));
    }

    [Property(Arbitrary = [typeof(Shoots)], MaxTest = 30)]
    public void With_a_spare_frame_rays_through_the_whole_span_meet_a_frame(Shoot shoot)
    {
        var set = shoot.Layout(shoot.Settings with { SpareFrames = 1 });

        Assert.All(Rays(set, shoot.Picture.Horizontal, set.CleanFull), ray => Assert.True(set.Covers(ray.Bearing, ray.Altitude), $"{ray}"));
    }

    [Property(Arbitrary = [typeof(Shoots)])]
    public void Nothing_higher_than_the_clean_rectangle_is_covered_everywhere(Shoot shoot)
    {
        // Between two frames, where the top edge cuts: a hundredth of a degree above the rectangle no frame sees.
        var set = shoot.Layout(shoot.Settings with { SpareFrames = 0 });
        if (set.Columns == 1 || set.Clean.TopPx <= 0) return;
        var between = set.FrameAt(0, 0).Bearing + (set.Across.Step / 2);

        Assert.True(set.Covers(between, set.Clean.Top));
        Assert.False(set.Covers(between, set.Clean.Top + Angle.FromDegrees(0.01)));
    }

    [Property(Arbitrary = [typeof(Shoots)])]
    public void A_span_that_frames_fit_exactly_takes_exactly_them(Shoot shoot, PositiveInt number)
    {
        var count = 1 + (number.Get % 20);
        var fitted = FrameSteps.Of(count, shoot.Field.Horizontal, shoot.Settings.Overlap);
        if (fitted.Covered.Degrees >= 360) return;

        Assert.Equal(count, FrameSteps.Reaching(fitted.Covered, shoot.Field.Horizontal, shoot.Settings.Overlap).Count);
        var aLittleMore = fitted.Covered + Angle.FromDegrees(1e-6);
        Assert.Equal(count + 1, FrameSteps.Reaching(aLittleMore, shoot.Field.Horizontal, shoot.Settings.Overlap).Count);
    }

    [Property(Arbitrary = [typeof(Shoots)], MaxTest = 30)]
    public void A_full_circle_closes_with_even_steps_and_at_least_the_overlap_asked_for(Shoot shoot)
    {
        var picture = new Picture(shoot.Picture.Centre, Angle.FromDegrees(360), shoot.Picture.Vertical, shoot.Picture.CentrePitch);
        var set = (shoot with { Picture = picture }).Layout();

        Assert.True(set.Across.Closed);
        Assert.Equal(360, set.Across.Step.Degrees * set.Columns, 9);
        Assert.True(set.Across.Overlap >= shoot.Settings.Overlap - 1e-12);
        Assert.Equal(set.Columns, set.ColumnsWithSpares);
        Assert.Equal(360, set.Clean.Width.Degrees, 9);
        Assert.All(Rays(set, set.Span, set.Clean), ray => Assert.True(set.Covers(ray.Bearing, ray.Altitude), $"{ray}"));
    }

    private static IEnumerable<(Azimuth Bearing, Angle Altitude)> Rays(SetLayout set, Angle width, CleanRectangle clean) =>
        from x in Enumerable.Range(0, 25)
        from y in Enumerable.Range(0, 5)
        let justInside = 1 - 1e-12
        let tan = clean.Bottom.Tan() + ((clean.Top.Tan() - clean.Bottom.Tan()) * (0.5 + ((y - 2) / 4.0 * justInside)))
        select (set.Picture.Centre + (width * ((x - 12) / 24.0 * justInside)), Angle.FromRadians(Math.Atan(tan)));
}
