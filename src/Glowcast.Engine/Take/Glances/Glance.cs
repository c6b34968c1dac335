namespace Glowcast.Engine.Take;

/// <summary>A picture at a glance: how bright each of 16 × 12 parts of it is, upright, in stops below full white.</summary>
/// <remarks>Enough to tell a marker frame, a frame shot twice and a drift of the light; nothing can be recognised in it.</remarks>
public sealed class Glance
{
    public const int Columns = 16;
    public const int Rows = 12;

    /// <summary>Darker parts count as dark as this [stops].</summary>
    public const float Darkest = -12;

    private readonly float[] stops;

    /// <param name="stops">Row by row from the top, each from the left: log₂ of the luminance, 0 for full white.</param>
    /// <exception cref="ArgumentException">Not 16 × 12 finite numbers.</exception>
    public Glance(IReadOnlyList<float> stops)
    {
        ArgumentNullException.ThrowIfNull(stops);
        if (stops.Count != Columns * Rows || !stops.All(float.IsFinite))
            throw new ArgumentException($"A glance is {Columns} x {Rows} finite numbers; got {stops.Count}.", nameof(stops));
        this.stops = [.. stops.Select(part => Math.Clamp(part, Darkest, 0))];
        MeanStops = Math.Log2(this.stops.Average(part => Math.Pow(2, part)));
        var middle = this.stops.Average();
        ContrastStops = Math.Sqrt(this.stops.Average(part => (part - middle) * (part - middle)));
    }

    /// <summary>Its parts, the darkest first [stops].</summary>
    internal IReadOnlyList<float> Sorted => [.. stops.Order()];

    /// <summary>The share of its parts that are darker.</summary>
    internal double ShareBelow(double limitStops) => stops.Count(part => part < limitStops) / (double)stops.Length;

    public float this[int row, int column] => stops[(row * Columns) + column];

    /// <summary>Of the mean luminance.</summary>
    public double MeanStops { get; }

    /// <summary>The standard deviation of the parts.</summary>
    public double ContrastStops { get; }

    /// <summary>The columns that a share of the width takes, at least one and at most half of them.</summary>
    internal static int ColumnsOf(double share) => Math.Clamp((int)Math.Round(share * Columns), 1, Columns / 2);

    /// <summary>How much two pictures differ, part by part [stops, root mean square].</summary>
    public double DistanceTo(Glance other) => Distance(other, 0);

    /// <summary>The same, were both equally bright on the whole: the pattern alone.</summary>
    public double PatternDistanceTo(Glance other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Distance(other, stops.Average() - other.stops.Average());
    }

    /// <summary>By how many stops the left part of one picture is brighter than the right part of another that shows the
    /// same: the mean over both strips.</summary>
    /// <param name="right">Whose left strip is taken.</param>
    /// <param name="columns">Of the strips, 1 to 16.</param>
    /// <returns>The difference of the means, and how much the strips differ besides.</returns>
    internal (double Stops, double Mismatch) StripTo(Glance right, int columns)
    {
        var differences = new double[columns * Rows];
        for (var row = 0; row < Rows; row++)
            for (var column = 0; column < columns; column++)
                differences[(row * columns) + column] = right[row, column] - this[row, Columns - columns + column];
        var mean = differences.Average();
        return (mean, Math.Sqrt(differences.Average(difference => (difference - mean) * (difference - mean))));
    }

    private double Distance(Glance other, double offset)
    {
        ArgumentNullException.ThrowIfNull(other);
        var sum = 0.0;
        for (var i = 0; i < stops.Length; i++)
        {
            var difference = stops[i] - other.stops[i] - offset;
            sum += difference * difference;
        }
        return Math.Sqrt(sum / stops.Length);
    }
}
