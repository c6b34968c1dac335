using FsCheck;
using FsCheck.Fluent;
using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Capture;

/// <summary>What a set is laid out from; made up at random by <see cref="Shoots"/>.</summary>
public sealed record Shoot(Camera Camera, Lens Lens, SetSettings Settings, Picture Picture)
{
    internal FrameField Field => new(Camera, Lens, Settings.Orientation);

    internal SetLayout Layout(SetSettings? settings = null) => new(Camera, Lens, settings ?? Settings, Picture);
}

public sealed record Overlaps(double Less, double More);

/// <summary>Everything that decides a clock.</summary>
public sealed record Sweep(int Columns, int Rows, int FirstRow, StepTimes Times, int Repeats)
{
    internal SetClock Clock(SweepDirection direction, RowOrder rows) =>
        new(Columns, Rows, new ShootingOrder(direction, rows, FirstRow), Times, repeats: Repeats);
}

/// <summary>Plausible shoots: from wide lenses to long ones, from a single frame to most of the circle.</summary>
public static class Shoots
{
    private static readonly Camera[] Bodies =
    [
        new(Length.FromMillimetres(36), Length.FromMillimetres(24), 8256, 5504),
        new(Length.FromMillimetres(23.5), Length.FromMillimetres(15.6), 6000, 4000),
        new(Length.FromMillimetres(43.8), Length.FromMillimetres(32.9), 11648, 8736),
    ];

    public static Arbitrary<Shoot> Any() =>
        (from body in Gen.Elements(Bodies)
         from focalMm in Gen.Choose(24, 400)
         from orientation in Gen.Elements(Orientation.Landscape, Orientation.Portrait)
         from overlap in Hundredths(20, 60)
         from rowOverlap in Hundredths(20, 60)
         from centre in Hundredths(0, 36000)
         from span in Hundredths(200, 20000)
         from vertical in Hundredths(100, 3000)
         from pitch in Hundredths(-1000, 1000)
         select new Shoot(
             body, new Lens(Length.FromMillimetres(focalMm), 8),
             new SetSettings { Orientation = orientation, Overlap = overlap, RowOverlap = rowOverlap },
             new Picture(Azimuth.FromDegrees(centre), Angle.FromDegrees(span), Angle.FromDegrees(vertical), Angle.FromDegrees(pitch))))
        .ToArbitrary();

    public static Arbitrary<Overlaps> TwoOverlaps() =>
        (from less in Hundredths(20, 60)
         from more in Hundredths(0, 20)
         select new Overlaps(less, less + more)).ToArbitrary();

    public static Arbitrary<Sweep> Sweeps() =>
        (from columns in Gen.Choose(1, 15)
         from rows in Gen.Choose(1, 4)
         from firstRow in Gen.Choose(0, rows - 1)
         from times in Times()
         from repeats in Gen.Choose(0, 2)
         select new Sweep(columns, rows, firstRow, times, repeats)).ToArbitrary();

    private static Gen<StepTimes> Times() =>
        from rotate in Seconds(0, 500)
        from settle in Seconds(0, 500)
        from exposure in Seconds(1, 400)
        from rowChange in Seconds(0, 2000)
        from back in Seconds(0, 1000)
        from marker in Seconds(0, 500)
        select new StepTimes
        {
            Rotate = rotate,
            Settle = settle,
            Exposure = exposure,
            RowChange = rowChange,
            Return = back,
            Marker = marker,
        };

    private static Gen<NodaTime.Duration> Seconds(int fromHundredths, int toHundredths) =>
        Hundredths(fromHundredths, toHundredths).Select(NodaTime.Duration.FromSeconds);

    private static Gen<double> Hundredths(int from, int to) => Gen.Choose(from, to).Select(n => n / 100.0);
}
