using System.Runtime.CompilerServices;

namespace Glowcast.Engine.Measures;

internal static class Finite
{
    /// <summary>The value itself, when it is a number one can compute with.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN or infinite.</exception>
    public static double Required(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, "Must be a finite number.");
}
