using System.Numerics;

namespace Glowcast.Engine.Terrain;

/// <summary>The highest ground in any square of 2^n × 2^n cells, so that a sight line can pass over a whole square of
/// low ground in one comparison.</summary>
/// <remarks>Level 0 holds one value per cell: the highest of its four corner posts, above which its bilinear surface
/// never rises. A cell with a hole at a corner stands in nobody's way and holds −∞.</remarks>
internal sealed class MaximumPyramid
{
    private readonly Level[] levels;

    private MaximumPyramid(Level[] levels) => this.levels = levels;

    public static MaximumPyramid Over(float[] heights, int rows, int columns)
    {
        var levels = new List<Level> { CellsOf(heights, rows, columns) };
        while (levels[^1] is { Rows: > 1 } or { Columns: > 1 }) levels.Add(Halve(levels[^1]));
        return new MaximumPyramid([.. levels]);
    }

    /// <summary>An upper bound of the ground [m] in the box of cells [column0, column1] × [row0, row1], from at most
    /// four values; −∞ where there is no ground.</summary>
    public float UpperBound(int column0, int row0, int column1, int row1)
    {
        var extent = Math.Max(column1 - column0, row1 - row0);
        // The smallest squares of which two side by side always hold the box: 2^n ≥ extent.
        var n = extent <= 1 ? 0 : Math.Min(32 - BitOperations.LeadingZeroCount((uint)(extent - 1)), levels.Length - 1);
        var level = levels[n];
        var (left, right) = (Math.Max(column0 >> n, 0), Math.Min(column1 >> n, level.Columns - 1));
        var (top, bottom) = (Math.Max(row0 >> n, 0), Math.Min(row1 >> n, level.Rows - 1));
        var highest = float.NegativeInfinity;
        for (var row = top; row <= bottom; row++)
            for (var column = left; column <= right; column++)
                highest = Math.Max(highest, level.Maxima[(row * level.Columns) + column]);
        return highest;
    }

    /// <summary>The highest corner of one cell [m]; −∞ where there is no ground.</summary>
    public float OfCell(int column, int row) => levels[0].Maxima[(row * levels[0].Columns) + column];

    private static Level CellsOf(float[] heights, int rows, int columns)
    {
        var level = new Level(rows - 1, columns - 1);
        for (var row = 0; row < level.Rows; row++)
        {
            var north = heights.AsSpan(row * columns, columns);
            var south = heights.AsSpan((row + 1) * columns, columns);
            var cells = level.Maxima.AsSpan(row * level.Columns, level.Columns);
            for (var column = 0; column < cells.Length; column++)
            {
                // Math.Max hands a NaN on, and so a hole at any corner is noticed.
                var highest = Math.Max(Math.Max(north[column], north[column + 1]), Math.Max(south[column], south[column + 1]));
                cells[column] = float.IsNaN(highest) ? float.NegativeInfinity : highest;
            }
        }
        return level;
    }

    private static Level Halve(Level finer)
    {
        var level = new Level((finer.Rows + 1) / 2, (finer.Columns + 1) / 2);
        for (var row = 0; row < finer.Rows; row++)
        {
            for (var column = 0; column < finer.Columns; column++)
            {
                ref var highest = ref level.Maxima[((row / 2) * level.Columns) + (column / 2)];
                highest = Math.Max(highest, finer.Maxima[(row * finer.Columns) + column]);
            }
        }
        return level;
    }

    private sealed class Level
    {
        public Level(int rows, int columns)
        {
            (Rows, Columns) = (rows, columns);
            Maxima = new float[rows * columns];
            Array.Fill(Maxima, float.NegativeInfinity);
        }

        public int Rows { get; }

        public int Columns { get; }

        public float[] Maxima { get; }
    }
}
