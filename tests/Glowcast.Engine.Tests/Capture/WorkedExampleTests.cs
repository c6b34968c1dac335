using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Capture;

/// <summary>One plan worked by hand with the formulas of docs/model.md, Capture; their numbers stand beside each value.</summary>
public class WorkedExampleTests
{
    private readonly SetLayout set = SamplePlan.Layout;

    [Fact]
    public void Frames()
    {
        // (1) upright: a = 24 mm, b = 36 mm; 2 atan(12/135) = 10.1592°, 2 atan(18/135) = 15.1893°.
        Assert.Equal(10.1592, set.Field.Horizontal.Degrees, 4);
        Assert.Equal(15.1893, set.Field.Vertical.Degrees, 4);
        // (1) f = 135 · 5504/24 = 30 960 px; pitch 24 000/5504 = 4.3605 µm.
        Assert.Equal(30960, set.Field.FocalLengthPx, 6);
        Assert.Equal(4.3605, set.Field.PixelPitchUm, 4);
        // (2) 0.6 · 10.1592 = 6.0955°, 0.6 · 15.1893 = 9.1136°.
        Assert.Equal(6.0955, set.Across.Step.Degrees, 4);
        Assert.Equal(9.1136, set.Up.Step.Degrees, 4);
        // (3) 1 + ⌈(85 − 10.1592)/6.0955⌉ = 1 + ⌈12.278⌉ = 14, and a spare frame at each end; two rows were asked for.
        Assert.Equal((14, 16, 2, 32), (set.Columns, set.ColumnsWithSpares, set.Rows, set.FramesPerSet));
        // (4) 10.1592 + 13 · 6.0955 = 89.4011°; 15.1893 + 9.1136 = 24.3029°.
        Assert.Equal(89.4011, set.Across.Covered.Degrees, 4);
        Assert.Equal(24.3029, set.Up.Covered.Degrees, 4);
    }

    [Fact]
    public void Where_the_frames_point()
    {
        // The middle of 245..330 is 287.5°; the leftmost of 16 columns stands 7.5 steps before it: 287.5 − 45.7165 = 241.7835°.
        Assert.Equal(241.7835, set.FrameAt(0, 0).Bearing.Degrees, 4);
        Assert.Equal(333.2165, set.FrameAt(1, 15).Bearing.Degrees, 4);
        // The rows stand half a row step above and below the horizontal.
        Assert.Equal(4.5568, set.FrameAt(0, 3).Pitch.Degrees, 4);
        Assert.Equal(-4.5568, set.FrameAt(1, 3).Pitch.Degrees, 4);
        Assert.Equal([0, 15, 0, 15], set.Frames.Where(frame => frame.Spare).Select(frame => frame.Column));
    }

    [Fact]
    public void Clean_rectangle_and_print()
    {
        // (7) top edge 4.5568 + 7.5946 = 12.1514°; tan 12.1514° · cos 3.0478° = 0.215015, and the same below: 2 · 0.215015 · 30 960.
        Assert.Equal(13313.8, set.Clean.HeightPx, 1);
        // (8) trimmed: 14 steps, 85.3374° = 46 112.4 px.
        Assert.Equal(46112.4, set.Clean.WidthPx, 1);
        // (8) full: side edge atan(0.088889/(cos 4.5568° + 0.133333 sin 4.5568°)) = 5.0423°; 13 · 6.0955 + 2 · 5.0423 = 89.3265°.
        Assert.Equal(89.3265, set.CleanFull.Width.Degrees, 4);
        // (16) 30 960 · 85 · π/180 = 45 930.1 px, at 300 ppi 3888.7 mm wide and 13 313.8 px = 1127.2 mm high.
        Assert.Equal(45930.1, set.WidthPx, 1);
        Assert.Equal(3888.7, set.Print.Width.Millimetres, 1);
        Assert.Equal(1127.2, set.Print.Height.Millimetres, 1);
        Assert.Equal([3888.7, 4860.9, 6481.2], PrintSize.UsualPpi.Select(ppi => Math.Round(set.PrintAt(ppi).Width.Millimetres, 1)));
        // (17) 25.4/300/tan 1′ = 291.1 mm.
        Assert.Equal(291.1, set.Print.ViewingDistance.Millimetres, 1);
    }

    [Fact]
    public void What_can_spoil_it()
    {
        // (10) 135²/(11 · 2 · 0.0043605) + 135 mm = 190.12 m; (11) focused far: 0.135 m less.
        Assert.Equal(190.12, set.Sharpness.Hyperfocal.Metres, 2);
        Assert.Equal(189.98, set.Sharpness.NearLimit.Metres, 2);
        // (12) 2.44 · 0.55 · 11 = 14.762 µm, 3.39 pixels.
        Assert.Equal(14.762, set.Sharpness.AiryDiameterUm, 6);
        Assert.Equal(Diffraction.Noticeable, set.Sharpness.Diffraction);
        // (13) chord 2 · 0.08 · sin 3.0478° = 8.5070 mm; · 30 960 = 263.38 m.
        Assert.Equal(263.38, set.Parallax.FreeFrom.Metres, 2);
        Assert.True(set.Parallax.NoRailFor(Length.FromMetres(4200)));
        Assert.False(set.Parallax.NoRailFor(Length.FromMetres(40)));
        // (14) 30 960 · tan 0.2° = 108.07 px; over 85° 2 · 108.07 · sin 42.5° = 146.02 px.
        Assert.Equal(108.07, set.Levelling.WavePx, 2);
        Assert.Equal(146.02, set.Levelling.WorstCropPx, 2);
        // (18) cloud at 5 m/s, 20 km: 30 960 · atan(5 · 4.02/20 000) = 31.11 px; the frames share 0.4 · 10.1592° = 2195.8 px.
        var drift = CloudDrift.Sideways(set, new SetClock(set), 5, Length.FromKilometres(20));
        Assert.Equal(31.11, drift.Pixels, 2);
        Assert.Equal(DriftEffect.SeamCanBePlaced, drift.Effect);
        // (19) at 20 km a pixel spans 20 000/30 960 = 0.646 m, the Airy radius 20 000 · 7.381e-6/0.135 = 1.0935 m:
        // √((2 · 0.646)² + 1.0935²) = 1.6926 m; at 80 km visibility e^(−3.912/4) = 0.376 of the contrast is left.
        var detail = RidgeDetail.At(Length.FromKilometres(20), set.Field, set.Lens, Length.FromKilometres(80));
        Assert.Equal(0.646, detail.Pixel.Metres, 3);
        Assert.Equal(1.0935, detail.Diffraction.Metres, 4);
        Assert.Equal(1.6926, detail.Smallest.Metres, 4);
        Assert.Equal(0.376, detail.ContrastLeft, 3);
    }

    [Fact]
    public void Clock()
    {
        var clock = new SetClock(set);

        // (20) 1.5 + 2 + 0.02 + 0.5 = 4.02 s; (21) 5 + 3 + 2 + 0.02 + 0.5 = 10.52 s.
        Assert.Equal(4.02, clock.Step.TotalSeconds, 9);
        Assert.Equal(10.52, clock.RowStep.TotalSeconds, 9);
        // (23) 2 · 15 · 4.02 + 10.52 = 131.12 s; (24) marker 3 s before and 0.52 s after: 134.64 s; with a repeat 2 · 134.64 + 4.
        Assert.Equal(131.12, clock.FirstToLast.TotalSeconds, 9);
        Assert.Equal(134.64, clock.SetLength.TotalSeconds, 9);
        Assert.Equal(273.28, clock.Total.TotalSeconds, 9);
        // (25) one sweep and one row step: 15 · 4.02 + 10.52 = 70.82 s.
        Assert.Equal(4.02, clock.MaxSideGap.TotalSeconds, 9);
        Assert.Equal(70.82, clock.MaxVerticalGap.TotalSeconds, 9);
        // (29) 150 + 60 + 30 + 40 + 2 · 90 + 45 + 40 s.
        Assert.Equal(545, SetUpTimes.Usual.Before(set.Rows).TotalSeconds, 9);
    }

    [Fact]
    public void Storage()
    {
        // (30) two sets of 32 frames and a marker: 66 files of 8256 · 5504 · 14/8 = 79 521 792 bytes.
        var storage = RawStorage.Of(set);
        Assert.Equal(66, storage.Exposures);
        Assert.Equal(66L * 79_521_792, storage.Bytes);
    }
}
