using Glowcast.Engine.Capture;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Kinds of takes, by what the photographer does and what goes wrong; every seed is one of them in turn.</summary>
internal static class PicturedKinds
{
    public static PicturedTake Of(int seed) => new PicturedShoot(HabitsOf(seed), seed).Make();

    public static int Count => All.Count;

    private static Habits HabitsOf(int seed)
    {
        var random = new Random(unchecked(seed * 7919) ^ 0x5EED);
        var rows = random.Next(4) == 0 ? random.Next(2, 4) : 1;
        var usual = new Habits
        {
            Columns = random.Next(5, 15) / (rows > 1 ? 2 : 1) + (rows > 1 ? 2 : 0),
            Rows = rows,
            Repeats = random.Next(0, 4),
            Order = new ShootingOrder(random.Next(3) == 0 ? SweepDirection.RightToLeft : SweepDirection.LeftToRight, random.Next(3) == 0 ? RowOrder.BackAndForth : RowOrder.OneWay),
            IsPortrait = random.Next(3) > 0,
            StoresUpright = random.Next(4) == 0,
            Overlap = random.Next(3) switch { 0 => 0.3, 1 => 0.4, _ => 0.5 },
            Marker = random.Next(3) switch { 0 => MarkerKind.None, 1 => MarkerKind.Dark, _ => MarkerKind.Hand },
            HasSubSeconds = random.Next(3) > 0,
            DriftStopsPerS = (random.NextDouble() - 0.5) * 0.006,
            NoiseStops = 0.02 + (0.1 * random.NextDouble()),
            Singles = random.Next(3) == 0 ? 2 : 0,
        };
        var (name, change) = All[(int)((uint)seed % All.Count)];
        return change(usual) with { Name = name };
    }

    private static readonly IReadOnlyList<(string Name, Func<Habits, Habits> Change)> All =
    [
        ("plain", h => h),
        ("one row", h => h with { Rows = 1, Columns = Math.Max(h.Columns, 6) }),
        ("two rows one way", h => h with { Rows = 2, Columns = Math.Min(h.Columns, 8), Order = new ShootingOrder() }),
        ("three rows back and forth", h => h with { Rows = 3, Columns = Math.Min(h.Columns, 7), Order = new ShootingOrder(rows: RowOrder.BackAndForth) }),
        ("right to left", h => h with { Order = new ShootingOrder(SweepDirection.RightToLeft) }),
        ("no markers", h => h with { Marker = MarkerKind.None, Repeats = 2 }),
        ("dark markers", h => h with { Marker = MarkerKind.Dark, Repeats = 2 }),
        ("hands as markers", h => h with { Marker = MarkerKind.Hand, Repeats = 2 }),
        ("half-dark markers", h => h with { Marker = MarkerKind.HalfDark, Repeats = 2 }),
        ("pauses", h => h with { PauseS = 40 }),
        ("long pauses", h => h with { PauseS = 420, Rows = 1 }),
        ("bracket -0+", h => h with { Bracket = [-1, 0, 1], Columns = Math.Min(h.Columns, 8) }),
        ("bracket 0-+", h => h with { Bracket = [0, -1, 1], Columns = Math.Min(h.Columns, 8) }),
        ("bracket +0-", h => h with { Bracket = [1, 0, -1], Columns = Math.Min(h.Columns, 8) }),
        ("bracket 0+-", h => h with { Bracket = [0, 1, -1], Columns = Math.Min(h.Columns, 8) }),
        ("missing middle", h => h with { Mishap = Mishap.MissingMiddle }),
        ("missing first", h => h with { Mishap = Mishap.MissingFirst }),
        ("missing last", h => h with { Mishap = Mishap.MissingLast }),
        ("missing two", h => h with { Mishap = Mishap.MissingTwo }),
        ("turned too far", h => h with { Mishap = Mishap.TurnedTooFar }),
        ("turned too far, one row", h => h with { Mishap = Mishap.TurnedTooFar, Rows = 1, Columns = Math.Max(6, h.Columns), MishapShare = 1 }),
        ("never turned", h => h with { Mishap = Mishap.NeverTurned }),
        ("place twice", h => h with { Mishap = Mishap.PlaceTwice }),
        ("shot again", h => h with { Mishap = Mishap.ShotAgain }),
        ("broken off", h => h with { Mishap = Mishap.BrokenOff }),
        ("started again", h => h with { Mishap = Mishap.StartedAgain }),
        ("snapshots", h => h with { Mishap = Mishap.Snapshots, Columns = 5, Rows = 1 }),
        ("phone snapshots", h => h with { Mishap = Mishap.PhoneSnapshots, Columns = 4, Rows = 1 }),
        ("zoom moved", h => h with { Mishap = Mishap.MovedZoom }),
        ("upper row shifted", h => h with { Mishap = Mishap.RowShifted, Rows = 2, Columns = 5 }),
        ("other subjects", h => h with { OtherSubjects = true, Repeats = 2, Rows = 1 }),
        ("two cameras", h => h with { HasSecondCamera = true }),
        ("clock off", h => h with { ClockOffS = 3600 }),
        ("clock to the second", h => h with { HasSubSeconds = false, Repeats = 2 }),
        ("copies (1)", h => h with { Copies = CopyKind.Parenthesised }),
        ("copies _2", h => h with { Copies = CopyKind.Underscored }),
        ("brightness drifts", h => h with { DriftStopsPerS = 0.02 }),
        ("cloud moves", h => h with { Style = ViewStyle.Of(new Random(h.Columns + (7 * h.Repeats))) with { Cloud = 1, CloudStops = 0.5, CloudPerS = 0.01 } }),
        ("grain", h => h with { NoiseStops = 0.22 }),
        ("haze", h => h with { Style = ViewStyle.Of(new Random(h.Columns + (5 * h.Repeats))) with { Clearness = 0.15, TextureStops = 0.15 } }),
        ("near ground", h => h with { Style = ViewStyle.Of(new Random(h.Columns + (3 * h.Repeats))) with { HasNear = true, Parallax = 0.03 } }),
        ("aimed badly", h => h with { AimError = 0.035, RollDeg = 0.8 }),
        ("large overlap", h => h with { Overlap = 0.6 }),
        ("small overlap", h => h with { Overlap = 0.25 }),
        ("no thumbnails", h => h with { Thumbnail = ThumbnailKind.None }),
        ("thumbnails with bars", h => h with { Thumbnail = ThumbnailKind.WithBars, StoresUpright = false }),
        ("in haste", h => h with { Haste = 0.45 }),
        ("pictures between", h => h with { Singles = 3, Repeats = 2 }),
    ];
}
