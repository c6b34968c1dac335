using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Capture;

public class StitchedSizeTests
{
    private static readonly SetLayout Set = SamplePlan.Layout;

    [Fact]
    public void A_cylinder_and_an_equirectangular_picture_are_equally_wide_and_differ_in_height()
    {
        var cylinder = StitchedSize.Of(Projection.Cylinder, Set)!;
        var equirectangular = StitchedSize.Of(Projection.Equirectangular, Set)!;

        Assert.Equal(Set.WidthPx, cylinder.WidthPx, 6);
        Assert.Equal(Set.Clean.HeightPx, cylinder.HeightPx, 6);
        Assert.Equal(cylinder.WidthPx, equirectangular.WidthPx, 6);
        // tan φ / φ at the clean edge of 12.1348°: 1.0152.
        Assert.Equal(1.0152, cylinder.HeightPx / equirectangular.HeightPx, 4);
        Assert.Equal(cylinder.WidthPx * cylinder.HeightPx / 1e6, cylinder.Megapixels, 9);
        Assert.Equal(3.4498, cylinder.Aspect, 4);
    }

    [Fact]
    public void A_flat_picture_widens_towards_its_ends()
    {
        var flat = StitchedSize.Of(Projection.Rectilinear, Set)!;

        // 2 · 30 960 · tan 42.5° = 56 739 px; the height is that of the middle.
        Assert.Equal(56739, flat.WidthPx, 0);
        Assert.Equal(Set.Clean.HeightPx, flat.HeightPx, 6);
    }

    [Fact]
    public void Below_the_horizon_the_ends_of_a_flat_picture_cut_its_top()
    {
        var low = new SetLayout(Set.Camera, Set.Lens, Set.Settings, new Picture(Set.Picture.Centre, Set.Picture.Horizontal, Set.Picture.Vertical, Angle.FromDegrees(-20)));
        var flat = StitchedSize.Of(Projection.Rectilinear, low)!;

        // The top is at −20 + 12.1514 = −7.8486°, and at the ends of a flat picture that far down stands at tan/cos 42.5°.
        var expected = 30960 * ((Math.Tan(-7.8486 * Math.PI / 180) / Math.Cos(42.5 * Math.PI / 180)) - low.Clean.Bottom.Tan());
        Assert.Equal(expected, flat.HeightPx, 0);
    }

    [Fact]
    public void Nothing_flat_is_offered_beyond_120_degrees()
    {
        SetLayout Spanning(double degrees) => new(Set.Camera, Set.Lens, Set.Settings, new Picture(default, Angle.FromDegrees(degrees), Angle.FromDegrees(12), Angle.Zero));

        Assert.NotNull(StitchedSize.Of(Projection.Rectilinear, Spanning(120)));
        Assert.Null(StitchedSize.Of(Projection.Rectilinear, Spanning(121)));
    }
}
