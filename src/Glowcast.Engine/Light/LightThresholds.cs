using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Light;

/// <summary>What counts as lit ridge, shaded valley and a window of light. Shares lie between 0 and 1.</summary>
public sealed record LightThresholds
{
    public static LightThresholds Usual { get; } = new();

    /// <summary>Ground farther than this is ridge, nearer ground is valley.</summary>
    public Length RidgeFrom { get; init; } = Length.FromKilometres(5);

    /// <summary>The topmost part of the ridge that must be lit.</summary>
    public Angle CrestBand { get; init; } = Angle.FromDegrees(0.5);

    /// <summary>Ground is lit when it sees this share of the sun's disc.</summary>
    public double DiscShare { get; init; } = 0.9;

    /// <summary>Ground is lit when direct light lifts it by so many stops over the same ground in shade.</summary>
    public double LitStops { get; init; } = 1;

    /// <summary>A column is lit when this share of its crest band is. With less a ridge stands as a dark shape (<see cref="ReliefReading"/>): slopes that face
    /// away from the sun are dark, and side light leaves half of them so.</summary>
    public double CrestLit { get; init; } = 0.4;

    /// <summary>The ridge is lit when this share is of its columns that the sun lights at all in that half of the day.</summary>
    public double ColumnsLit { get; init; } = 0.9;

    /// <summary>The valley is in shade while no more than this share of it is lit.</summary>
    public double ValleyLit { get; init; } = 0.2;

    /// <summary>A valley of which no more is lit than this share of all ground in the picture does no harm.</summary>
    public double ValleyPart { get; init; } = 0.02;

    /// <summary>A window is one only where it is about at least this share of the picture's ridge.</summary>
    public double LeastPicture { get; init; } = 0.25;

    /// <summary>Bearings without light are named where so many of them lie side by side.</summary>
    public Angle UnlitGap { get; init; } = Angle.FromDegrees(1);

    /// <summary>Up to which share of the valley may be lit.</summary>
    /// <param name="valleyPart">Of all ground in the picture, the share that is valley.</param>
    public double MostValley(double valleyPart) => valleyPart > 0 ? Math.Max(ValleyLit, Math.Min(1, ValleyPart / valleyPart)) : 1;
}
