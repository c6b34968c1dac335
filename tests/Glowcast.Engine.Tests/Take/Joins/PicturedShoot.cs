using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Shoots a take after somebody's habits.</summary>
internal sealed class PicturedShoot
{
    private const int Long = 160;
    private const int Short = 107;
    private const double MarginFrames = 1.5;

    private readonly Random random;
    private readonly Habits habits;
    private readonly MadeView view;
    private readonly MadeView elsewhere;
    private readonly Plan plan;
    private readonly SetClock clock;
    private readonly (int Wide, int High) frame;
    private readonly List<(string Name, byte[] Bytes)> files = [];
    private readonly List<string[]> sets = [];
    private readonly List<bool> complete = [];
    private readonly double jitter;
    private readonly double pace;
    private readonly double exposureS;
    private readonly LocalDateTime start = new(2026, 2, 14, 17, 5);
    private double nowS;
    private int number;
    private bool isTold = true;
    private (int Frame, double Across, double Up, double Roll) aimed = (-1, 0, 0, 0);

    public PicturedShoot(Habits habits, int seed)
    {
        random = new Random(seed);
        this.habits = habits;
        frame = habits.IsPortrait ? (Short, Long) : (Long, Short);
        (jitter, pace) = (0.06 + (0.1 * random.NextDouble()), habits.Haste * Math.Exp((random.NextDouble() * 0.8) - 0.3));
        exposureS = 1.0 / random.Next(4, 250);
        number = random.Next(1, 8000);
        nowS = random.NextDouble();
        var subjects = habits.OtherSubjects ? habits.Repeats + 1 : 1;
        var across = ((habits.Columns - 1) * (1 - habits.Overlap)) + 1 + (2 * MarginFrames);
        var down = ((habits.Rows - 1) * (1 - habits.Overlap)) + 1;
        var style = habits.Style ?? ViewStyle.Of(random);
        view = new MadeView(random, style, frame.Wide, frame.High, across * subjects, down);
        elsewhere = new MadeView(random, ViewStyle.Of(random), frame.Wide, frame.High, 12, 1.5);
        plan = new Plan
        {
            Span = new BearingSpan(Azimuth.FromDegrees(200), Azimuth.FromDegrees(290)),
            Date = new LocalDate(2026, 2, 14),
            Gear = new Gear(new Camera(Length.FromMillimetres(36), Length.FromMillimetres(24), 6000, 4000), new Lens(Length.FromMillimetres(random.Next(70, 300)), 11)),
            Set = new SetSettings
            {
                Orientation = habits.IsPortrait ? Orientation.Portrait : Orientation.Landscape,
                Overlap = habits.Overlap,
                RowOverlap = habits.Overlap,
                Columns = habits.Columns,
                Rows = habits.Rows,
                SpareFrames = 0,
                Repeats = habits.Repeats,
                Order = habits.Order,
                Bracket = habits.Bracket.Length > 1 ? new Bracket(habits.Bracket.Length, 2) : Bracket.None,
                Times = new StepTimes { Marker = Duration.FromSeconds(habits.Marker == MarkerKind.None ? 0 : 3) },
            },
        };
        clock = PlannedSet.Of(plan).Clock;
    }

    public PicturedTake Make()
    {
        for (var set = 0; set <= clock.Repeats; set++)
        {
            Singles(random.Next(habits.Singles + 1));
            Shoot(set);
            nowS += Human(8) + (random.NextDouble() < 0.3 ? 90 * random.NextDouble() : 0);
        }
        Singles(random.Next(habits.Singles + 1));
        if (habits.HasSecondCamera) SecondCamera();
        Copy();
        return new PicturedTake(habits.Name, plan, files, sets, complete, isTold);
    }

    private void Shoot(int set)
    {
        var subject = habits.OtherSubjects ? set * (((clock.Columns - 1) * (1 - habits.Overlap)) + 1 + MarginFrames) : 0;
        var mishap = random.NextDouble() < habits.MishapShare ? habits.Mishap : Mishap.None;
        if (mishap is Mishap.NeverTurned or Mishap.Snapshots or Mishap.PhoneSnapshots)
        {
            isTold = false;
            Pastime(mishap);
            return;
        }
        var hasMarker = habits.Marker != MarkerKind.None && random.NextDouble() >= habits.ForgetsMarker;
        if (hasMarker) Marker();
        var planned = clock.Exposures.Where(exposure => exposure.Set == 0).ToList();
        if (mishap == Mishap.StartedAgain && planned.Count > 6)
        {
            foreach (var (i, exposure) in planned.Take(random.Next(1, 3) * habits.Bracket.Length).Index()) Turned(planned, i, exposure, subject, 0, exposureS);
            isTold = false;
            aimed = (-1, 0, 0, 0);
            nowS += Human(6);
            if (hasMarker) Marker();
        }
        var frames = planned.Count / habits.Bracket.Length;
        var inner = random.Next(1, Math.Max(2, frames - 1));
        HashSet<int> missing = mishap switch
        {
            Mishap.MissingFirst => [0],
            Mishap.MissingLast => [frames - 1],
            Mishap.MissingMiddle => [inner],
            Mishap.MissingTwo => [inner, random.Next(frames)],
            Mishap.BrokenOff => [.. Enumerable.Range(frames / 2, frames - (frames / 2))],
            _ => [],
        };
        var pauseAt = habits.PauseS > 0 ? random.Next(1, frames) : -1;
        var (extra, again) = (0.0, mishap == Mishap.ShotAgain ? inner : -1);
        var names = new List<string>();
        foreach (var (i, exposure) in planned.Index())
        {
            var isFirstShot = i % habits.Bracket.Length == 0;
            if (isFirstShot && exposure.Frame == pauseAt) nowS += habits.PauseS * (0.6 + (0.8 * random.NextDouble()));
            // Farther than a frame reaches, at one step of a row; nobody turns back for it.
            if (isFirstShot && mishap == Mishap.TurnedTooFar && exposure.Frame == inner && i > 0 && planned[i - 1].Row == exposure.Row)
                extra = (habits.Overlap + 0.08 + (0.2 * random.NextDouble())) * Math.Sign(exposure.Column - planned[i - 1].Column);
            if (isFirstShot && i > 0 && planned[i - 1].Row != exposure.Row) extra = 0;
            if (mishap == Mishap.RowShifted && exposure.Row > 0) extra = 1.2;
            // One place is shot as two, and everything after comes a place late.
            var late = mishap == Mishap.PlaceTwice && exposure.Frame >= inner ? habits.Bracket.Length : 0;
            var looksAt = planned[Math.Max(0, i - late)];
            if (missing.Contains(exposure.Frame))
            {
                if (isFirstShot) nowS += StepS(planned, i);
                number++;
                continue;
            }
            var zoom = mishap == Mishap.MovedZoom && exposure.Frame >= inner ? 1.2 : 1;
            names.Add(Turned(planned, i, exposure with { Row = looksAt.Row, Column = looksAt.Column, Frame = looksAt.Frame }, subject, extra, exposureS, zoom));
            if (exposure.Frame != again || (i + 1) % habits.Bracket.Length != 0) continue;
            for (var shot = 0; shot < habits.Bracket.Length; shot++)
            {
                nowS += shot == 0 ? Human(2.2) : 0.6;
                names.Add(Picture(planned[i - habits.Bracket.Length + 1 + shot], subject, 0, Exposed(shot), 1));
            }
        }
        aimed = (-1, 0, 0, 0);
        sets.Add([.. names]);
        // A turn too far at the start of a row is none.
        complete.Add(missing.Count == 0 && (mishap is Mishap.None or Mishap.ShotAgain or Mishap.StartedAgain || (mishap == Mishap.TurnedTooFar && planned[inner * habits.Bracket.Length].Row != planned[(inner * habits.Bracket.Length) - 1].Row)));
        if (mishap == Mishap.RowShifted) complete[^1] = clock.Rows == 1;
    }

    private string Turned(List<Exposure> planned, int i, Exposure exposure, double subject, double extra, double _, double zoom = 1)
    {
        if (i > 0) nowS += StepS(planned, i);
        return Picture(exposure, subject, extra, Exposed(i % habits.Bracket.Length), zoom);
    }

    private double StepS(List<Exposure> planned, int i) => i == 0 ? 0
        : i % habits.Bracket.Length > 0 ? 0.6 + (0.02 * Normal())
        : Human((planned[i].Start - planned[i - 1].Start).TotalSeconds, planned[i].Row == planned[i - 1].Row ? 1 : 1.5);

    private double Exposed(int shot) => exposureS * Math.Pow(4, habits.Bracket[shot]);

    private string Picture(Exposure exposure, double subject, double extra, double seconds, double zoom)
    {
        if (exposure.Frame != aimed.Frame) aimed = (exposure.Frame, habits.AimError * Normal(), habits.AimError * Normal(), habits.RollDeg / 57.3 * Normal());
        var left = MarginFrames + subject + (exposure.Column * (1 - habits.Overlap)) + aimed.Across + extra;
        var top = (exposure.Row * (1 - habits.Overlap)) + aimed.Up;
        var stops = view.Frame(left, top, aimed.Roll, nowS, frame.Wide, frame.High);
        return Add(stops, (habits.DriftStopsPerS * nowS) + Math.Log2(seconds / exposureS), seconds, zoom, CameraOf(0));
    }

    private void Marker()
    {
        var stops = view.Frame(MarginFrames + (2 * random.NextDouble()), 0, 0, nowS, frame.Wide, frame.High);
        var edge = 0.5 + (0.1 * Normal());
        var slant = 0.3 * Normal();
        for (var i = 0; i < stops.Length; i++)
        {
            var (x, y) = ((double)(i % frame.Wide) / frame.Wide, (double)(i / frame.Wide) / frame.High);
            var hand = (float)(-6 + (0.4 * Normal() * 0.2));
            stops[i] = habits.Marker switch
            {
                MarkerKind.Dark => -11,
                MarkerKind.Hand => -4.6f + (float)(0.3 * x),
                _ => x < edge + (slant * y) ? -9.5f : stops[i] + (0 * hand),
            };
        }
        Add(stops, 0, exposureS, 1, CameraOf(0));
        nowS += Human(3 * (0.5 + random.NextDouble()));
    }

    // A time-lapse that never turns, snapshots by the camera, or by a phone: as many as a set has, about as fast.
    private void Pastime(Mishap kind)
    {
        var count = clock.FramesPerSet * (kind == Mishap.NeverTurned ? random.Next(1, 4) : 1);
        for (var i = 0; i < count; i++)
        {
            nowS += kind == Mishap.NeverTurned ? clock.Step.TotalSeconds : Human(5);
            var (left, top) = kind == Mishap.NeverTurned ? (MarginFrames + 1, 0.1) : (10 * random.NextDouble(), 0.5 * random.NextDouble());
            var from = kind == Mishap.NeverTurned ? view : elsewhere;
            Add(from.Frame(left, top, 0, nowS, frame.Wide, frame.High), 0, exposureS, 1, CameraOf(kind == Mishap.PhoneSnapshots ? 2 : 0));
        }
    }

    private void Singles(int count)
    {
        for (var i = 0; i < count; i++)
        {
            nowS += 4 + (random.NextDouble() * 30);
            var seconds = random.Next(3) == 0 ? exposureS * 3 : exposureS;
            Add(elsewhere.Frame(10 * random.NextDouble(), 0.5 * random.NextDouble(), 0, nowS, frame.Wide, frame.High), 0, seconds, random.Next(2) == 0 ? 1 : 0.3, CameraOf(0));
            nowS += 4 + (random.NextDouble() * 30);
        }
    }

    private void SecondCamera()
    {
        var (savedS, countOf) = (nowS, random.Next(3, 12));
        for (var i = 0; i < countOf; i++)
        {
            nowS = random.NextDouble() * savedS;
            Add(elsewhere.Frame(10 * random.NextDouble(), 0.5, 0, nowS, frame.Wide, frame.High), 0, exposureS, 0.2, CameraOf(2));
        }
        nowS = savedS;
    }

    // Copies of some files beside them, as file managers and download folders name them.
    private void Copy()
    {
        if (habits.Copies == CopyKind.None) return;
        foreach (var (name, bytes) in files.Where(_ => random.Next(5) == 0).ToList())
        {
            var stem = Path.GetFileNameWithoutExtension(name);
            files.Add(($"{stem}{(habits.Copies == CopyKind.Parenthesised ? " (1)" : "_2")}.jpg", bytes));
        }
    }

    private static (string Make, string Model, string Serial) CameraOf(int which) => which == 0 ? ("Maker", "Body", "1001") : ("Other", "Phone", "77");

    private string Add(float[] stops, double brighterStops, double seconds, double zoom, (string Make, string Model, string Serial) camera)
    {
        var name = $"IMG_{number++ % 10000:0000}.jpg";
        if (camera.Make != "Maker") name = $"P{name}";
        var gray = Stored(stops, brighterStops);
        var (wide, high) = IsStoredTurned ? (frame.High, frame.Wide) : frame;
        var picture = FrameFile.Jpeg(gray, wide, high, random.Next(72, 92));
        var thumbnail = habits.Thumbnail switch { ThumbnailKind.None => null, ThumbnailKind.WithBars => FrameFile.Jpeg(WithBars(gray, wide, high), 160, 120, 80), _ => picture };
        var at = start.PlusNanoseconds((long)((habits.HasSubSeconds ? Math.Round(nowS, 2) : Math.Floor(nowS)) * 1e9)).PlusSeconds((long)habits.ClockOffS);
        var lie = IsStoredTurned ? 8 : 1;
        files.Add((name, FrameFile.Of(picture, thumbnail, new FrameFile.Tags(
            camera.Make, camera.Model, camera.Serial, at, habits.HasSubSeconds, seconds, 11, 100, plan.Gear!.Lens.FocalLength.Millimetres * zoom, lie,
            wide > high ? 6000 : 4000, wide > high ? 4000 : 6000))));
        return name;
    }

    private bool IsStoredTurned => habits is { IsPortrait: true, StoresUpright: false, Thumbnail: not ThumbnailKind.WithBars } or { IsPortrait: true, Thumbnail: ThumbnailKind.WithBars };

    // Lie 8: row 0 of the stored picture is at the left of what is seen, column 0 at the bottom (EXIF 2.32, 0x0112).
    private byte[] Stored(float[] stops, double brighterStops)
    {
        var (wide, high) = IsStoredTurned ? (frame.High, frame.Wide) : frame;
        var gray = new byte[wide * high];
        for (var y = 0; y < high; y++)
            for (var x = 0; x < wide; x++)
            {
                var (across, down) = IsStoredTurned ? (y, frame.High - 1 - x) : (x, y);
                var seen = stops[(down * frame.Wide) + across] + brighterStops + (habits.NoiseStops * Normal());
                gray[(y * wide) + x] = ToSrgb(Math.Pow(2, Math.Min(0, seen)));
            }
        return gray;
    }

    // A thumbnail of 4:3 has bars where the picture is 3:2.
    private static byte[] WithBars(byte[] gray, int wide, int high)
    {
        var barred = new byte[160 * 120];
        for (var y = 0; y < high; y++) gray.AsSpan(y * wide, wide).CopyTo(barred.AsSpan(((y + 6) * 160)));
        return barred;
    }

    private static byte ToSrgb(double linear) => (byte)Math.Round(255 * (linear <= 0.0031308 ? 12.92 * linear : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055));

    private double Human(double seconds, double unsteadiness = 1) => seconds * pace * Math.Exp(jitter * unsteadiness * Normal());

    private double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
