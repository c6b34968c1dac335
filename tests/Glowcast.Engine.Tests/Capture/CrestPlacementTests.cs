using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Capture;

public class CrestPlacementTests
{
    [Theory]
    [InlineData(1.5, 0.5)]
    [InlineData(1.5, 0.67)]
    [InlineData(-2, 0.8)]
    [InlineData(8, 0.1)]
    public void The_pitch_found_puts_the_crest_at_the_share_asked_for(double crestDeg, double share)
    {
        var crest = Angle.FromDegrees(crestDeg);
        var plan = SamplePlan.Layout;
        var pitch = CrestPlacement.CentrePitch(plan.Camera, plan.Lens, plan.Settings, plan.Picture, crest, share);
        var set = new SetLayout(plan.Camera, plan.Lens, plan.Settings, new Picture(plan.Picture.Centre, plan.Picture.Horizontal, plan.Picture.Vertical, pitch));

        Assert.Equal(share, CrestPlacement.Share(set.Clean, crest), 6);
    }

    [Fact]
    public void A_crest_on_the_horizon_in_the_middle_needs_level_rows()
    {
        var plan = SamplePlan.Layout;
        var pitch = CrestPlacement.CentrePitch(plan.Camera, plan.Lens, plan.Settings, plan.Picture, Angle.Zero, 0.5);

        Assert.Equal(0, pitch.Degrees, 6);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void A_crest_cannot_stand_on_the_edge(double share) => Assert.ThrowsAny<ArgumentException>(() =>
        CrestPlacement.CentrePitch(SamplePlan.Body, SamplePlan.Lens, SamplePlan.Settings, SamplePlan.Picture, Angle.Zero, share));
}
