using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;

namespace Glowcast.Engine.Tests.Take;

/// <summary>A take of picture files with real joins, and the truth about it.</summary>
/// <param name="Plan">The plan it was shot by.</param>
/// <param name="Files">As a camera wrote them.</param>
/// <param name="Sets">Names of the frames of each set, those shot twice included.</param>
/// <param name="Complete">Whether each set has all its frames, and each joins on to its neighbours.</param>
/// <param name="IsTold">Whether the truth says which frames make a set; of snapshots and the like it does not.</param>
internal sealed record PicturedTake(
    string Kind, Plan Plan, IReadOnlyList<(string Name, byte[] Bytes)> Files, IReadOnlyList<string[]> Sets, IReadOnlyList<bool> Complete, bool IsTold)
{
    /// <summary>A plan that asks for other columns, for half the focal length with the camera turned on its side, and so on.</summary>
    public Plan Altered(int moreColumns = 0, double focal = 1, bool turned = false) => Plan with
    {
        Gear = Plan.Gear! with { Lens = new Lens(Plan.Gear.Lens.FocalLength * focal, Plan.Gear.Lens.Aperture) },
        Set = Plan.Set with
        {
            Columns = Math.Max(2, Plan.Set.Columns!.Value + moreColumns),
            Orientation = turned ? (Orientation)(1 - (int)Plan.Set.Orientation) : Plan.Set.Orientation,
        },
    };
}

/// <summary>What a photographer does, and what goes wrong.</summary>
internal sealed record Habits
{
    public string Name { get; init; } = "";

    public int Columns { get; init; } = 8;

    public int Rows { get; init; } = 1;

    public int Repeats { get; init; } = 1;

    public ShootingOrder Order { get; init; } = new();

    public bool IsPortrait { get; init; } = true;

    /// <summary>The camera turns the pixels itself, and writes that the picture is upright.</summary>
    public bool StoresUpright { get; init; }

    public double Overlap { get; init; } = 0.4;

    public MarkerKind Marker { get; init; } = MarkerKind.Dark;

    public double ForgetsMarker { get; init; } = 0.08;

    /// <summary>Shutter times of a frame, in steps of two stops from the metered one, in the order they are shot.</summary>
    public int[] Bracket { get; init; } = [0];

    public Mishap Mishap { get; init; }

    /// <summary>The share of sets it happens to.</summary>
    public double MishapShare { get; init; } = 0.5;

    public double PauseS { get; init; }

    /// <summary>Pictures by themselves between sets.</summary>
    public int Singles { get; init; }

    public double AimError { get; init; } = 0.012;

    public double RollDeg { get; init; } = 0.2;

    public double NoiseStops { get; init; } = 0.05;

    public double DriftStopsPerS { get; init; }

    public bool HasSubSeconds { get; init; } = true;

    public double ClockOffS { get; init; }

    public ThumbnailKind Thumbnail { get; init; } = ThumbnailKind.OfShape;

    public CopyKind Copies { get; init; }

    public bool HasSecondCamera { get; init; }

    public double Haste { get; init; } = 1;

    /// <summary>Each set looks at something else.</summary>
    public bool OtherSubjects { get; init; }

    public ViewStyle? Style { get; init; }
}

internal enum MarkerKind { None, Dark, Hand, HalfDark }

internal enum ThumbnailKind { OfShape, WithBars, None }

internal enum CopyKind { None, Parenthesised, Underscored }

internal enum Mishap
{
    None,
    MissingMiddle,
    MissingFirst,
    MissingLast,
    MissingTwo,
    TurnedTooFar,
    NeverTurned,
    PlaceTwice,
    ShotAgain,
    BrokenOff,
    StartedAgain,
    Snapshots,
    PhoneSnapshots,
    MovedZoom,
    RowShifted,
}
