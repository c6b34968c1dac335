namespace Glowcast.Engine.Weather;

/// <summary>The values of a field in the order of its data; NaN where one is missing.</summary>
public sealed class GribValues
{
    private readonly double[]? values;
    private readonly double everywhere;

    internal GribValues(double[] values) => (this.values, Count) = (values, values.Length);

    internal GribValues(double everywhere, int count) => (this.everywhere, Count) = (everywhere, count);

    public int Count { get; }

    public double this[int place] => values is null ? everywhere : values[place];

    public int Missing => values?.Count(double.IsNaN) ?? 0;
}
