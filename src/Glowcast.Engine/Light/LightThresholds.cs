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

    /// <summary>A column is lit when this share of its crest band is.</summary>
    public double CrestLit { get; init; } = 0.6;

    /// <summary>The ridge is lit when this share of its columns is.</summary>
    public double ColumnsLit { get; init; } = 0.9;

    /// <summary>The valley is in shade while no more than this share of its ground is lit.</summary>
    public double ValleyLit { get; init; } = 0.2;
}
