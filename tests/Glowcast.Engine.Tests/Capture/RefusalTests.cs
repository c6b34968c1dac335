using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Tests.Capture;

public class RefusalTests
{
    public static TheoryData<string, Action> Nonsense => new()
    {
        { "sensor's width", () => _ = new Camera(Mm(0), Mm(24), 8256, 5504) },
        { "sensor's height", () => _ = new Camera(Mm(36), Mm(-24), 8256, 5504) },
        { "pixels across", () => _ = new Camera(Mm(36), Mm(24), 0, 5504) },
        { "pixels down", () => _ = new Camera(Mm(36), Mm(24), 8256, -1) },
        { "focal length", () => _ = new Lens(Mm(0), 8) },
        { "f-number", () => _ = new Lens(Mm(100), double.NaN) },
        { "overlap", () => _ = new SetSettings { Overlap = 1 } },
        { "overlap", () => _ = new SetSettings { RowOverlap = -0.1 } },
        { "overlap", () => _ = new SetSettings { Overlap = double.NaN } },
        { "columns", () => _ = new SetSettings { Columns = 0 } },
        { "rows", () => _ = new SetSettings { Rows = 0 } },
        { "spare frames", () => _ = new SetSettings { SpareFrames = -1 } },
        { "repeats", () => _ = new SetSettings { Repeats = -1 } },
        { "level error", () => _ = new SetSettings { LevelError = Angle.FromDegrees(50) } },
        { "pupil", () => _ = new SetSettings { PupilOffset = Mm(-1) } },
        { "pixels per inch", () => _ = new SetSettings { PrintPpi = 0 } },
        { "Exposure", () => _ = new StepTimes { Exposure = Duration.Zero } },
        { "Settle", () => _ = new StepTimes { Settle = Duration.FromSeconds(-1) } },
        { "odd number", () => _ = new Bracket(2, 1) },
        { "step of a bracket", () => _ = new Bracket(3, 0) },
        { "first row", () => _ = new ShootingOrder(firstRow: -1) },
        { "cannot be shot first", () => _ = new SetClock(3, 2, new ShootingOrder(firstRow: 2), new StepTimes()) },
        { "number of rows", () => _ = new SetClock(3, 0, new ShootingOrder(), new StepTimes()) },
        { "take fewer repeats", () => _ = new SetClock(10, 2, new ShootingOrder(), new StepTimes(), repeats: int.MaxValue) },
        { "number of columns", () => _ = new SetClock(0, 1, new ShootingOrder(), new StepTimes()) },
        { "at most 360° wide", () => _ = new Picture(default, Deg(361), Deg(10), Deg(0)) },
        { "wider than 0°", () => _ = new Picture(default, Deg(0), Deg(10), Deg(0)) },
        { "less than 180° high", () => _ = new Picture(default, Deg(90), Deg(180), Deg(0)) },
        { "between the nadir and the zenith", () => _ = new Picture(default, Deg(90), Deg(10), Deg(90)) },
        { "height in pixels", () => _ = new PrintSize(1000, 0, 300) },
        { "pixels per inch", () => _ = new PrintSize(1000, 1000, -300) },
        { "farther than its focal length", () => _ = new Sharpness(SamplePlan.Layout.Field, SamplePlan.Lens).NearLimitAt(Mm(135)) },
        { "speed", () => _ = CloudDrift.Sideways(SamplePlan.Layout, new SetClock(SamplePlan.Layout), -1, Length.FromKilometres(2)) },
        { "cloud's distance", () => _ = CloudDrift.Sideways(SamplePlan.Layout, new SetClock(SamplePlan.Layout), 1, Length.Zero) },
        { "at least one stop", () => _ = ClickStop.Nearest([], SamplePlan.Layout.Across) },
        { "more than zero", () => _ = ClickStop.Nearest([Deg(0)], SamplePlan.Layout.Across) },
        { "cannot hold the ridge", () => _ = OrderChoice.For(new OrderSituation(2, RidgeRow: 2)) },
    };

    public static TheoryData<string, SetSettings, double, Picture> NotToBeShot => new()
    {
        { "past the zenith", new SetSettings { Rows = 20 }, 135, SamplePlan.Picture },
        { "past the zenith", new SetSettings(), 135, new Picture(default, Deg(30), Deg(12), Deg(83)) },
        { "past the nadir", new SetSettings(), 135, new Picture(default, Deg(30), Deg(12), Deg(-83)) },
        { "past the zenith", new SetSettings(), 24, new Picture(default, Deg(30), Deg(170), Deg(0)) },
        { "needs a fisheye", new SetSettings(), 6, SamplePlan.Picture },
        { "would not meet", new SetSettings { Overlap = 0, Rows = 2 }, 135, SamplePlan.Picture },
        { "more than a set can be", new SetSettings { Overlap = 0.9999 }, 135, SamplePlan.Picture },
        { "more frames than a set can be", new SetSettings { SpareFrames = int.MaxValue }, 135, SamplePlan.Picture },
        { "more frames than a set can be", new SetSettings { Overlap = 0.995, RowOverlap = 0.995 }, 135, new Picture(default, Deg(80), Deg(30), Deg(0)) },
        { "more than a set can be", new SetSettings { Columns = int.MaxValue }, 135, SamplePlan.Picture },
    };

    [Theory, MemberData(nameof(Nonsense))]
    public void Nonsense_is_refused_and_named(string named, Action making) =>
        Assert.Contains(named, Assert.ThrowsAny<ArgumentException>(making).Message, StringComparison.Ordinal);

    [Theory, MemberData(nameof(NotToBeShot))]
    public void A_picture_that_cannot_be_shot_says_why(string why, SetSettings settings, double focalMm, Picture picture)
    {
        var refused = Assert.ThrowsAny<ArgumentException>(() => new SetLayout(SamplePlan.Body, new Lens(Mm(focalMm), 8), settings, picture));
        Assert.Contains(why, refused.Message, StringComparison.Ordinal);
    }

    private static Length Mm(double millimetres) => Length.FromMillimetres(millimetres);

    private static Angle Deg(double degrees) => Angle.FromDegrees(degrees);
}
