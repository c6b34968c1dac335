using System.Collections;

namespace Glowcast.Engine.Terrain;

/// <summary>Fills small holes with the smoothest ground that joins their rims: each filled post is the mean of its four
/// neighbours (the Laplace equation).</summary>
/// <remarks>A hole is a piece of posts without heights that hang together by rows and columns. One that is wider or
/// higher than <see cref="WidestPosts"/>, or that reaches the grid's edge, stays a hole: there is no telling what is in it.</remarks>
internal static class HoleFilling
{
    public const int WidestPosts = 50;

    private const float SettledM = 0.005f;
    private const int MostRounds = 1000;

    /// <returns>How many posts were filled.</returns>
    public static int Fill(float[] heights, int rows, int columns)
    {
        var seen = new BitArray(heights.Length);
        var filled = 0;
        for (var post = 0; post < heights.Length; post++)
        {
            if (!float.IsNaN(heights[post]) || seen[post]) continue;
            if (BordersOnLargeHole(post, heights, columns, seen))
            {
                seen[post] = true;
                continue;
            }
            if (HoleAt(post, heights, rows, columns, seen) is not { } hole) continue;
            Smooth(hole, heights, columns);
            filled += hole.Count;
        }
        return filled;
    }

    // What was seen before and is a hole still was found too large; most of it is passed over here.
    private static bool BordersOnLargeHole(int post, float[] heights, int columns, BitArray seen) =>
        (post >= columns && seen[post - columns] && float.IsNaN(heights[post - columns]))
        || (post % columns > 0 && seen[post - 1] && float.IsNaN(heights[post - 1]));

    /// <summary>The posts of a hole; null where it is too large, or open to the edge.</summary>
    private static List<int>? HoleAt(int first, float[] heights, int rows, int columns, BitArray seen)
    {
        var (hole, members) = (new List<int> { first }, new HashSet<int> { first });
        var isSmall = true;
        seen[first] = true;
        for (var i = 0; i < hole.Count && isSmall; i++)
        {
            var (row, column) = Math.DivRem(hole[i], columns);
            isSmall = row > 0 && row < rows - 1 && column > 0 && column < columns - 1
                && Math.Abs(row - (first / columns)) < WidestPosts && Math.Abs(column - (first % columns)) < WidestPosts;
            if (!isSmall) break;
            foreach (var neighbour in (ReadOnlySpan<int>)[hole[i] - columns, hole[i] - 1, hole[i] + 1, hole[i] + columns])
            {
                if (!float.IsNaN(heights[neighbour]) || !members.Add(neighbour)) continue;
                // Seen before, and not one of these: it belongs to a hole that was found too large.
                isSmall &= !seen[neighbour];
                seen[neighbour] = true;
                hole.Add(neighbour);
            }
        }
        return isSmall && IsNarrow(hole, columns) ? hole : null;
    }

    private static bool IsNarrow(List<int> hole, int columns) =>
        hole.Max(post => post % columns) - hole.Min(post => post % columns) < WidestPosts;

    /// <summary>Successive over-relaxation (Young 1954) from the mean of the rim.</summary>
    private static void Smooth(List<int> hole, float[] heights, int columns)
    {
        hole.Sort();
        var rim = hole.SelectMany(post => (int[])[post - columns, post - 1, post + 1, post + columns])
            .Where(post => !float.IsNaN(heights[post])).Average(post => heights[post]);
        foreach (var post in hole) heights[post] = rim;
        var relaxation = 2 / (1 + Math.Sin(Math.PI / (1 + Math.Sqrt(hole.Count))));
        for (var round = 0; round < MostRounds; round++)
        {
            var greatest = 0.0;
            foreach (var post in hole)
            {
                var mean = ((double)heights[post - columns] + heights[post - 1] + heights[post + 1] + heights[post + columns]) / 4;
                var change = relaxation * (mean - heights[post]);
                heights[post] += (float)change;
                greatest = Math.Max(greatest, Math.Abs(change));
            }
            if (greatest < SettledM) return;
        }
    }
}
