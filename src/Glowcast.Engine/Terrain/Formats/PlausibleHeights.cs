using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Refuses heights that no ground on earth has: infinities, and no-data values that the file does not own up to.</summary>
internal static class PlausibleHeights
{
    // The Challenger Deep and Mount Everest, with room for datums and noise.
    private const float LowestM = -12_000;
    private const float HighestM = 9_000;

    /// <param name="heights">Of a piece of one row; holes are NaN and pass.</param>
    /// <param name="column">Of the first of them.</param>
    public static void Check(ReadOnlySpan<float> heights, int row, int column, string fileName)
    {
        for (var i = 0; i < heights.Length; i++)
        {
            if (!(heights[i] < LowestM || heights[i] > HighestM)) continue;
            throw new BadInputException(
                fileName, $"Has a height of {heights[i]} m in row {row}, column {column + i}; heights lie between {LowestM} and {HighestM} m. If it stands for no data, the file must say so.");
        }
    }
}
