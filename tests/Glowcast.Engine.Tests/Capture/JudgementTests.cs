using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Tests.Capture;

/// <summary>Where a number turns into a word.</summary>
public class JudgementTests
{
    private static readonly FrameField Field = SamplePlan.Layout.Field;

    // The pixel is 4.36 µm: f/8 gives a disc of 2.46 pixels, f/11 3.39, f/16 4.92.
    [Theory]
    [InlineData(8, Diffraction.Unseen)]
    [InlineData(11, Diffraction.Noticeable)]
    [InlineData(16, Diffraction.Strong)]
    public void Diffraction_is_judged_by_the_pixel(double aperture, Diffraction expected) =>
        Assert.Equal(expected, new Sharpness(Field, new Lens(Length.FromMillimetres(135), aperture)).Diffraction);

    // At 1 m/s for 1 s over 10 km a cloud drifts 3.096 px, at 0.9 m/s 2.786 px.
    [Theory]
    [InlineData(0.9, 5, DriftEffect.Clean)]
    [InlineData(1, 31, DriftEffect.SeamCanBePlaced)]
    [InlineData(1, 30, DriftEffect.Doubtful)]
    [InlineData(1, 6.2, DriftEffect.Doubtful)]
    [InlineData(1, 6.1, DriftEffect.Ghost)]
    public void Drift_is_judged_by_what_two_frames_share(double speedMs, double overlapPx, DriftEffect expected) =>
        Assert.Equal(expected, new CloudDrift(Field, speedMs, Length.FromKilometres(10), Duration.FromSeconds(1), overlapPx).Effect);

    [Fact]
    public void Between_rows_cloud_has_more_time_to_drift()
    {
        var clock = new SetClock(SamplePlan.Layout);
        var between = CloudDrift.BetweenRows(SamplePlan.Layout, clock, 2, Length.FromKilometres(10));

        // 30 960 · atan(2 · 70.82/10 000) = 438.5 px.
        Assert.Equal(438.5, between.Pixels, 1);
    }

    [Fact]
    public void Clear_air_takes_no_contrast() =>
        Assert.Equal(1, RidgeDetail.At(Length.FromKilometres(20), Field, SamplePlan.Lens).ContrastLeft);

    [Fact]
    public void At_the_distance_of_visibility_two_per_cent_of_contrast_are_left() =>
        Assert.Equal(0.02, RidgeDetail.At(Length.FromKilometres(30), Field, SamplePlan.Lens, Length.FromKilometres(30)).ContrastLeft, 4);

    [Fact]
    public void One_row_takes_one_rehearsal_less_than_two() => Assert.Equal(
        SetUpTimes.Slow.RehearseRow, SetUpTimes.Slow.Before(2) - SetUpTimes.Slow.Before(1));
}
