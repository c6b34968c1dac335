using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Values that stand for no data though their file does not say so, such as −9999: heights below all dry ground that come
/// exactly alike and have hardly another near them. They become holes; whatever else lies deep stays ground.</summary>
/// <remarks>Common practice, no source: a sea floor is never alone at its depth, a mark for no data is. Dry ground ends at the shore
/// of the Dead Sea, some 440 m below the sea. Heights come in pieces and once; so a deep value is held back as holes until
/// others are found near it, and then given back.</remarks>
/// <param name="take">Gets what is given back.</param>
internal sealed class UnmarkedNoData(TakeHeights take, string fileName)
{
    private const float DeepM = -250;
    private const float BelowDryGroundM = -500;
    private const float NearM = 250;

    // Some files mark two things, such as sea and what was not surveyed, by neighbouring numbers.
    private const int MarksTogether = 2;
    private const int MostRuns = 1_000_000;
    private const int Steps = 64;

    private readonly List<Mark> marks = [];

    // Steps of 250 m below the sea in which there is ground.
    private readonly bool[] hasGround = new bool[Steps];
    private float[] changed = [];
    private int runs;

    /// <summary>How many posts are held back; once all is read these have no height.</summary>
    public long Posts => marks.Sum(mark => mark.Posts);

    /// <summary>The same piece of a row; what may be a mark is a hole in it.</summary>
    public ReadOnlySpan<float> Without(int row, int column, ReadOnlySpan<float> heights)
    {
        var copied = false;
        for (var i = 0; i < heights.Length; i++)
        {
            if (!(heights[i] < DeepM) || MarkOf(heights[i]) is not { } mark) continue;
            if (!copied)
            {
                if (changed.Length < heights.Length) changed = new float[heights.Length];
                heights.CopyTo(changed);
                copied = true;
            }
            changed[i] = float.NaN;
            if (mark.Add(row, column + i) && ++runs > MostRuns)
                throw new BadInputException(fileName, $"Holds {mark.Value} m all over, as files do that mark places without a height by it. It must say so: state its no-data value.");
        }
        return copied ? changed.AsSpan(0, heights.Length) : heights;
    }

    // Null where it is ground.
    private Mark? MarkOf(float height)
    {
        var known = marks.Find(mark => mark.Value == height);
        if (known is not null) return known;
        var step = (int)(-height / NearM);
        var near = marks.FindAll(mark => Math.Abs(mark.Value - height) <= NearM);
        if (height < BelowDryGroundM && near.Count < MarksTogether && !hasGround.AsSpan(step - 1, 3).Contains(true))
        {
            var mark = new Mark(height);
            marks.Add(mark);
            return mark;
        }
        hasGround[step] = true;
        foreach (var mark in near) GiveBack(mark);
        return null;
    }

    private void GiveBack(Mark mark)
    {
        marks.Remove(mark);
        runs -= mark.Runs.Count;
        hasGround[(int)(-mark.Value / NearM)] = true;
        var longest = new float[mark.Runs.Count == 0 ? 0 : mark.Runs.Max(run => run.Count)];
        Array.Fill(longest, mark.Value);
        foreach (var (row, column, count) in mark.Runs) take(row, column, longest.AsSpan(0, count));
    }

    private sealed class Mark(float value)
    {
        public float Value => value;

        public List<(int Row, int Column, int Count)> Runs { get; } = [];

        public long Posts { get; private set; }

        /// <returns>Whether a new run of neighbours begins.</returns>
        public bool Add(int row, int column)
        {
            Posts++;
            if (Runs.Count > 0 && Runs[^1] is var (lastRow, first, count) && lastRow == row && first + count == column)
            {
                Runs[^1] = (row, first, count + 1);
                return false;
            }
            Runs.Add((row, column, 1));
            return true;
        }
    }
}
