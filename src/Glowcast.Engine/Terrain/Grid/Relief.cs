using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The range of heights in a grid.</summary>
/// <param name="Lowest">Null when no post has a height.</param>
/// <param name="Highest">Null when no post has a height.</param>
/// <param name="Holes">Posts without a height.</param>
public readonly record struct Relief(Length? Lowest, Length? Highest, int Holes)
{
    internal static Relief Of(ReadOnlySpan<float> heights)
    {
        var (lowest, highest, holes) = (float.PositiveInfinity, float.NegativeInfinity, 0);
        foreach (var height in heights)
        {
            if (float.IsNaN(height)) holes++;
            // No else: comparing with a NaN is false, and so the loop has no branch to miss.
            lowest = height < lowest ? height : lowest;
            highest = height > highest ? height : highest;
        }
        return holes == heights.Length
            ? new Relief(null, null, holes)
            : new Relief(Length.FromMetres(lowest), Length.FromMetres(highest), holes);
    }

    /// <summary>Of the same ground, raised to a floor [m] wherever it is lower.</summary>
    internal Relief RaisedTo(float floorM) => this with { Lowest = Raised(Lowest, floorM), Highest = Raised(Highest, floorM) };

    private static Length? Raised(Length? height, float floorM) =>
        height is { } h && h.Metres < floorM ? Length.FromMetres(floorM) : height;
}
