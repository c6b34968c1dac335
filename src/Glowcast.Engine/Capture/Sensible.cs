using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Capture;

/// <summary>Keeps values that can mean nothing out of the types a plan is made of; each check returns the value.</summary>
internal static class Sensible
{
    public static double Positive(double value, string name, string what) =>
        value > 0 && double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{what} must be a finite number greater than zero.");

    public static Length Positive(Length value, string name, string what) =>
        value > Length.Zero ? value : throw new ArgumentOutOfRangeException(name, value, $"{what} must be greater than zero.");

    public static Length NotNegative(Length value, string name, string what) =>
        value >= Length.Zero ? value : throw new ArgumentOutOfRangeException(name, value, $"{what} must not be negative.");

    public static int AtLeast(int least, int value, string name, string what) =>
        value >= least ? value : throw new ArgumentOutOfRangeException(name, value, $"{what} must be at least {least}.");

    public static Duration NotNegative(Duration value, string name) =>
        value >= Duration.Zero ? value : throw new ArgumentOutOfRangeException(name, value, $"{name} must not be a negative time.");

    /// <summary>The share of a frame that its neighbour repeats, in [0, 1).</summary>
    public static double Overlap(double value, string name) =>
        value is >= 0 and < 1
            ? value
            : throw new ArgumentOutOfRangeException(name, value,
                "An overlap is the share of a frame that its neighbour repeats: at least 0 and less than 1 (0.3 to 0.5 is usual).");
}
