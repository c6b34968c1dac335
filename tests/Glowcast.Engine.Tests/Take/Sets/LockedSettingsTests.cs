using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using NodaTime;

namespace Glowcast.Engine.Tests.Take;

/// <summary>What counts as a change of a setting that should have been locked. The limits are common practice, without a source.</summary>
public class LockedSettingsTests
{
    private static readonly SetClock Plan = new(10, 1, new ShootingOrder(), new StepTimes(), repeats: 0);

    // Zooms report their focal length to a millimetre or two; what is more was turned.
    [Theory]
    [InlineData(135, 137, false)]
    [InlineData(135, 139, true)]
    [InlineData(135, 131, true)]
    [InlineData(400, 407, false)]
    public void A_focal_length_may_differ_by_two_hundredths(double firstMm, double laterMm, bool isChange) => Expect(
        isChange, "focal length", (frame, i) => frame with { FocalLength = Length.FromMillimetres(i < 5 ? firstMm : laterMm) });

    [Theory]
    [InlineData(100, 109, false)]
    [InlineData(100, 112, true)]
    public void A_focus_distance_may_differ_by_a_tenth(double firstM, double laterM, bool isChange) => Expect(
        isChange, "focus distance", (frame, i) => frame with { FocusDistance = Length.FromMetres(i < 5 ? firstM : laterM) });

    // A fifth of a stop: less than the third by which cameras are set.
    [Theory]
    [InlineData(0.15, false)]
    [InlineData(0.3333, true)]
    [InlineData(-0.3333, true)]
    public void An_exposure_may_differ_by_less_than_a_third_of_a_stop(double stops, bool isChange) => Expect(
        isChange, "exposure", (frame, i) => frame with { Exposure = Duration.FromSeconds(0.02 * (i < 5 ? 1 : Math.Pow(2, stops))) });

    private static void Expect(bool isChange, string setting, Func<ShotSettings, int, ShotSettings> with)
    {
        var frames = MadeTake.Shot(Plan).Select((frame, i) => frame with { Settings = with(frame.Settings, i) });
        var set = Assert.Single(MadeTake.Sorted([.. frames], Plan).Sets);
        Assert.Equal(isChange ? [(setting, "IMG_00006.dng")] : [], set.Changed.Select(change => (change.Setting, change.At)));
    }
}
