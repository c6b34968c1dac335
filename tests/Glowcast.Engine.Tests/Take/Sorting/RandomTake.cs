using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using NodaTime;

namespace Glowcast.Engine.Tests.Take;

/// <summary>A take made up with all that goes wrong in the cold, and the truth about it.</summary>
/// <param name="Clock">Of the plan; the photographer keeps to its frames, not to its times.</param>
/// <param name="Frames">In the order of their names.</param>
/// <param name="Sets">Names of the frames of each set, those shot twice included.</param>
/// <param name="Complete">Whether each set has all its frames.</param>
internal sealed record RandomTake(SetClock Clock, IReadOnlyList<ShotFrame> Frames, IReadOnlyList<string[]> Sets, IReadOnlyList<bool> Complete)
{
    /// <param name="markers">Whether the photographer shoots marker frames; one in twelve is forgotten.</param>
    /// <param name="glances">Whether the files have previews.</param>
    public static RandomTake Of(int seed, bool markers, bool glances = true) => new TakeMaker(new Random(seed), new Random(~seed), markers, glances).Make();
}

/// <param name="random">What is shot, and when.</param>
/// <param name="hand">How it is aimed.</param>
internal sealed class TakeMaker(Random random, Random hand, bool markers, bool glances)
{
    private const double Overlap = 0.4;

    // Nobody aims twice at quite the same place [widths of a frame], and no picture is without grain.
    private const double AimError = 0.015;
    private const double GrainStops = 0.04;

    private readonly MadePanorama panorama = new(random);
    private readonly List<ShotFrame> frames = [];
    private readonly List<string[]> sets = [];
    private readonly List<bool> complete = [];
    private readonly ShotSettings locked = new()
    {
        Exposure = Duration.FromSeconds(1.0 / random.Next(4, 400)),
        Aperture = 8,
        Iso = 100,
        FocalLength = Length.FromMillimetres(random.Next(70, 400)),
        WhiteBalance = "Manual",
        Lie = 8,
        PixelsWide = 8256,
        PixelsHigh = 5504,
    };

    private readonly double pace = Math.Exp((random.NextDouble() * 0.9) - 0.3);
    private readonly double jitter = 0.06 + (random.NextDouble() * 0.12);
    private readonly bool hasSubSeconds = random.NextDouble() < 0.7;
    private readonly double driftStopsPerS = (random.NextDouble() - 0.5) * 0.006;
    private readonly int firstNumber = random.Next(1, 9000);
    // Nobody sets a camera's clock right: minutes slow, hours of another time zone, years after a flat battery.
    private readonly LocalDateTime start = new LocalDateTime(2026, 2, 14, 6, 45).PlusSeconds(random.Next(-100_000_000, 100_000));
    private double nowS = random.NextDouble();

    public RandomTake Make()
    {
        var order = new ShootingOrder(
            random.Next(2) == 0 ? SweepDirection.LeftToRight : SweepDirection.RightToLeft, random.Next(3) == 0 ? RowOrder.BackAndForth : RowOrder.OneWay);
        var times = new StepTimes { Marker = markers ? Duration.FromSeconds(3) : Duration.Zero };
        var bracket = random.Next(8) == 0 ? new Bracket(3, 2) : Bracket.None;
        var clock = new SetClock(random.Next(4, 15), random.Next(1, 4), order, times, bracket, random.Next(0, 4));
        for (var set = 0; set <= clock.Repeats; set++)
        {
            Singles(random.NextDouble() < 0.25 ? random.Next(1, 3) : 0);
            Shoot(clock, times);
            nowS += Human(times.RepeatGap.TotalSeconds + times.Return.TotalSeconds + (clock.Rows > 1 ? times.RowChange.TotalSeconds : 0));
            if (random.NextDouble() < 0.3) nowS += random.NextDouble() * 120;
        }
        Singles(random.NextDouble() < 0.25 ? 1 : 0);
        return new RandomTake(clock, frames, sets, complete);
    }

    private void Shoot(SetClock clock, StepTimes times)
    {
        if (markers && random.NextDouble() > 1 / 12.0) Marker(times);
        var planned = clock.Exposures.Where(exposure => exposure.Set == 0).ToList();
        var deleted = Enumerable.Range(0, random.NextDouble() < 0.25 ? Math.Min(random.Next(1, 4), planned.Count / 4) : 0).Select(_ => random.Next(planned.Count)).ToHashSet();
        var twice = random.NextDouble() < 0.15 ? random.Next(planned.Count) : -1;
        var single = random.NextDouble() < 0.08 ? random.Next(1, planned.Count) : -1;
        var names = new List<string>();
        foreach (var (i, exposure) in planned.Index())
        {
            if (i > 0) nowS += Human((exposure.Start - planned[i - 1].Start).TotalSeconds, exposure.Row != planned[i - 1].Row ? 1.5 : 1, exposure.Shot > 0);
            // The exposures of a bracket are the camera's doing: nothing comes between them.
            if (exposure.Shot == 0 && random.NextDouble() < 0.004) nowS += 5 + (random.NextDouble() * 20);
            if (i == single && exposure.Shot == 0) Singles(1);
            var settings = locked with { Exposure = locked.Exposure * Math.Pow(2, (exposure.Shot - (clock.Exposures.Count(e => e is { Set: 0, Frame: 0 }) / 2)) * 2) };
            if (deleted.Contains(i)) Skip();
            else names.Add(Picture(exposure, settings));
            if (i != twice) continue;
            nowS += Human((times.Settle + times.Exposure + times.Write).TotalSeconds * 0.8);
            names.Add(Picture(exposure, settings));
        }
        sets.Add([.. names]);
        complete.Add(deleted.Count == 0 || (deleted.Count == 1 && deleted.Contains(twice)));
    }

    private void Marker(StepTimes times)
    {
        var isDark = random.Next(2) == 0;
        var even = new float[Glance.Columns * Glance.Rows];
        for (var i = 0; i < even.Length; i++) even[i] = (isDark ? -11 : -4.5f) + (0.2f * random.NextSingle());
        Add(locked, new Glance(even), ViewOf((_, _) => even[0]));
        nowS += Human(times.Marker.TotalSeconds * (0.5 + random.NextDouble()));
    }

    // A detail with another lens or upright, a snapshot, or a test of the light just as the set is shot.
    private void Singles(int count)
    {
        for (var i = 0; i < count; i++)
        {
            var settings = random.Next(6) switch
            {
                0 or 1 => locked with { Lie = 1 },
                2 or 3 => locked with { FocalLength = Length.FromMillimetres(35) },
                4 => locked with { Exposure = locked.Exposure * 4 },
                _ => locked,
            };
            nowS += 3 + (random.NextDouble() * 30);
            var (left, top) = (random.NextDouble() * 20, random.NextDouble() * 3);
            Add(settings, panorama.Glance(left, top, 0), ViewOf((x, y) => panorama.Detailed(left + x, top + y)));
            nowS += 3 + (random.NextDouble() * 30);
        }
    }

    private string Picture(Exposure exposure, ShotSettings settings)
    {
        // The shots of a bracket, and a frame shot again, are not aimed anew.
        if (exposure.Frame != aimed.Frame) aimed = (exposure.Frame, AimError * Normal(hand), AimError * Normal(hand));
        var brighter = (driftStopsPerS * nowS) + Math.Log2(settings.Exposure!.Value / locked.Exposure!.Value);
        var (left, top) = ((exposure.Column * (1 - Overlap)) + aimed.Across, (exposure.Row * (1 - Overlap)) + aimed.Up);
        return Add(settings, Grained(panorama.Glance(left, top, brighter)), ViewOf((x, y) => panorama.Detailed(left + x, top + y) + brighter));
    }

    private static View ViewOf(Func<double, double, double> stopsAt)
    {
        const int wide = 48, high = 36;
        var gray = new byte[wide * high];
        for (var i = 0; i < gray.Length; i++)
        {
            var linear = Math.Min(1, Math.Pow(2, stopsAt((i % wide + 0.5) / wide, (i / wide + 0.5) / high)));
            gray[i] = (byte)Math.Round(255 * (linear <= 0.0031308 ? 12.92 * linear : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055));
        }
        return new View(wide, high, gray);
    }

    private Glance Grained(Glance glance)
    {
        var parts = new float[Glance.Columns * Glance.Rows];
        for (var i = 0; i < parts.Length; i++) parts[i] = (float)(glance[i / Glance.Columns, i % Glance.Columns] + (GrainStops * Normal(hand)));
        return new Glance(parts);
    }

    private string Add(ShotSettings settings, Glance glance, View view)
    {
        var frame = new ShotFrame($"IMG_{firstNumber + number++:0000}.CR3")
        {
            Camera = "Maker Model 1",
            Taken = start.PlusNanoseconds((long)((hasSubSeconds ? Math.Round(nowS, 2) : Math.Floor(nowS)) * 1e9)),
            HasSubSeconds = hasSubSeconds,
            Settings = settings,
            Glance = glances ? glance : null,
            View = glances ? view : null,
        };
        frames.Add(frame);
        return frame.Name;
    }

    private int number;
    private (int Frame, double Across, double Up) aimed = (-1, 0, 0);

    private void Skip() => number++;

    private double Human(double plannedS, double unsteadiness = 1, bool isMachine = false) =>
        plannedS * (isMachine ? 1 : pace) * Math.Exp((isMachine ? 0.02 : jitter * unsteadiness) * Normal(random));

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}

/// <summary>A picture without end, of waves of many lengths; a unit is the width of a frame.</summary>
internal sealed class MadePanorama
{
    private readonly List<(double Across, double Up, double Phase, double Stops)> waves = [];
    private readonly List<(double Across, double Up, double Phase, double Stops)> detail = [];

    public MadePanorama(Random random)
    {
        for (var wave = 0; wave < 24; wave++)
        {
            var length = Math.Exp((random.NextDouble() * 3.2) - 1.2);
            var turn = random.NextDouble() * 2 * Math.PI;
            waves.Add((2 * Math.PI * Math.Cos(turn) / length, 2 * Math.PI * Math.Sin(turn) / length, random.NextDouble() * 2 * Math.PI, 0.12 * Math.Sqrt(length)));
        }
        var own = new Random(BitConverter.DoubleToInt64Bits(waves[0].Phase).GetHashCode());
        for (var wave = 0; wave < 30; wave++)
        {
            var (length, turn) = (0.06 * Math.Exp(own.NextDouble() * 1.9), own.NextDouble() * 2 * Math.PI);
            detail.Add((2 * Math.PI * Math.Cos(turn) / length, 2 * Math.PI * Math.Sin(turn) / length, own.NextDouble() * 2 * Math.PI, 0.12));
        }
    }

    /// <summary>With what a glance is too coarse to show: rock, trees, edges.</summary>
    public double Detailed(double x, double y)
    {
        var sum = Stops(x, y);
        foreach (var (across, up, phase, height) in detail) sum += height * Math.Sin((across * x) + (up * y) + phase);
        return sum;
    }

    public double Stops(double x, double y)
    {
        var sum = -3.0;
        foreach (var (across, up, phase, height) in waves) sum += height * Math.Sin((across * x) + (up * y) + phase);
        return sum;
    }

    /// <param name="left">The left edge of the frame, in its widths.</param>
    /// <param name="top">The top edge, downwards.</param>
    public Glance Glance(double left, double top, double brighterStops)
    {
        var parts = new float[Engine.Take.Glance.Columns * Engine.Take.Glance.Rows];
        for (var row = 0; row < Engine.Take.Glance.Rows; row++)
            for (var column = 0; column < Engine.Take.Glance.Columns; column++)
            {
                var (x, y) = (left + ((column + 0.5) / Engine.Take.Glance.Columns), top + ((row + 0.5) / Engine.Take.Glance.Rows));
                parts[(row * Engine.Take.Glance.Columns) + column] = (float)(Stops(x, y) + brighterStops);
            }
        return new Glance(parts);
    }
}
