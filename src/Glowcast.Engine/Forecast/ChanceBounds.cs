using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>From which chance on a set is said to fit, and how high a chance may be called where something cannot be known.</summary>
/// <remarks>Common practice, no source: nine mornings in ten are worth the drive, one in two is luck.</remarks>
/// <param name="Fits">The least chance of a set that fits.</param>
/// <param name="Tight">The least chance of a set that is tight; below it, it does not fit.</param>
/// <param name="UnknownMost">The most that is claimed where ground past the edge of the grid, as high as the highest along it, would move an end of the starts by more
/// than it is unsure by.</param>
/// <param name="LeastSpanShare">The least share of the span that a remedy may leave of it.</param>
public sealed record ChanceBounds(double Fits = 0.9, double Tight = 0.5, double UnknownMost = 0.8, double LeastSpanShare = 0.5)
{
    public static ChanceBounds Usual { get; } = new();

    /// <summary>The verdict on a start at which every exposure has its light by the best estimate.</summary>
    public Verdict Of(double chance) => chance >= Fits ? Verdict.Fits : chance >= Tight ? Verdict.Tight : Verdict.TooLong;
}
