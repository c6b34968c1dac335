using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Refuses heights that no ground on earth has: infinities, and no-data values that the file does not own up to.</summary>
internal static class PlausibleHeights
{
    // The Challenger Deep and Mount Everest, with room for datums and noise.
    private const float LowestM = -12_000;
    private const float HighestM = 9_000;

    /// <summary>Holes are NaN and pass.</summary>
    public static void Check(float[] heights, GridPosts posts, string fileName)
    {
        for (var i = 0; i < heights.Length; i++)
        {
            if (!(heights[i] < LowestM || heights[i] > HighestM)) continue;
            throw new BadInputException(
                fileName, $"Has a height of {heights[i]} m in row {i / posts.Columns}, column {i % posts.Columns}; heights lie between {LowestM} and {HighestM} m. If it stands for no data, the file must say so.");
        }
    }
}
