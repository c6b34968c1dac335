using System.Globalization;

namespace Glowcast.Engine.Measures;

/// <summary>Collects everything that is wrong with an input, so that it can be said at once.</summary>
/// <remarks>Each check returns a usable value, so that reading can go on after a fault; <see cref="ThrowIfAny"/> at
/// the end keeps bad values from going further.</remarks>
public sealed class Faults
{
    private readonly List<Fault> found = [];

    public IReadOnlyList<Fault> Found => found;

    public bool Any => found.Count > 0;

    public void Add(string field, string message) => found.Add(new Fault(field, message));

    /// <exception cref="BadInputException">Something was wrong.</exception>
    public void ThrowIfAny()
    {
        if (Any) throw new BadInputException([.. found]);
    }

    /// <summary>A number in [min, max]; NaN fails. A missing value takes <paramref name="fallback"/> where one is given.</summary>
    public double InRange(double? value, string field, double min, double max, double? fallback = null)
    {
        if ((value ?? fallback) is { } v && v >= min && v <= max) return v;
        Add(field, value is null ? $"Is missing; give {Between(min, max)}." : $"Must be {Between(min, max)}; got {Text(value.Value)}.");
        return min;
    }

    /// <summary>A whole number in [min, max].</summary>
    public int InRange(int? value, string field, int min, int max, int? fallback = null)
    {
        if ((value ?? fallback) is { } v && v >= min && v <= max) return v;
        Add(field, value is null
            ? $"Is missing; give a whole number from {min} to {max}."
            : $"Must be a whole number from {min} to {max}; got {value}.");
        return min;
    }

    /// <summary>A number greater than zero and at most <paramref name="max"/>.</summary>
    public double Positive(double? value, string field, double max, double? fallback = null)
    {
        if ((value ?? fallback) is { } v && v > 0 && v <= max) return v;
        var right = $"a number greater than 0 and at most {Text(max)}";
        Add(field, value is null ? $"Is missing; give {right}." : $"Must be {right}; got {Text(value.Value)}.");
        return max;
    }

    private static string Between(double min, double max) => $"a number from {Text(min)} to {Text(max)}";

    private static string Text(double value) => value.ToString(CultureInfo.InvariantCulture);
}
