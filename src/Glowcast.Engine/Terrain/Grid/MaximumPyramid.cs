using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Glowcast.Engine.Terrain;

/// <summary>The highest ground in any square of 2^n × 2^n cells, so that a sight line can pass over a whole square of
/// low ground in one comparison.</summary>
/// <remarks>The highest of a cell is the highest of its four corner posts, above which its bilinear surface never rises.
/// A cell with a hole at a corner stands in nobody's way and holds −∞. Squares of fewer than 4 × 4 cells are not kept:
/// they would take as much memory as the heights themselves.</remarks>
internal sealed class MaximumPyramid
{
    /// <summary>The smallest squares are of 2^this cells.</summary>
    public const int FirstLevel = 2;

    private readonly float[] heights;
    private readonly int columns;
    private readonly Level[] levels;
    private readonly float floorM;

    private MaximumPyramid(float[] heights, int columns, Level[] levels, float floorM) =>
        (this.heights, this.columns, this.levels, this.floorM) = (heights, columns, levels, floorM);

    public static MaximumPyramid Over(float[] heights, int rows, int columns)
    {
        var levels = new List<Level> { SquaresOf(heights, rows, columns) };
        while (levels[^1] is { Rows: > 1 } or { Columns: > 1 }) levels.Add(Halve(levels[^1]));
        return new MaximumPyramid(heights, columns, [.. levels], float.NegativeInfinity);
    }

    /// <summary>The same ground, raised to a floor [m] wherever it is lower.</summary>
    public MaximumPyramid RaisedTo(float floorM) => new(heights, columns, levels, floorM);

    /// <summary>An upper bound of the ground [m] in the box of cells [column0, column1] × [row0, row1], from at most
    /// four values; −∞ where there is no ground.</summary>
    public float UpperBound(int column0, int row0, int column1, int row1)
    {
        var extent = Math.Max(column1 - column0, row1 - row0);
        // The smallest squares of which two side by side always hold the box: 2^n ≥ extent.
        var n = extent <= 1 << FirstLevel ? 0 : Math.Min(32 - FirstLevel - BitOperations.LeadingZeroCount((uint)(extent - 1)), levels.Length - 1);
        var (level, shift) = (levels[n], n + FirstLevel);
        var (left, right) = (Math.Max(column0 >> shift, 0), Math.Min(column1 >> shift, level.Columns - 1));
        var (top, bottom) = (Math.Max(row0 >> shift, 0), Math.Min(row1 >> shift, level.Rows - 1));
        var highest = float.NegativeInfinity;
        for (var row = top; row <= bottom; row++)
            for (var column = left; column <= right; column++)
                highest = Math.Max(highest, level.Maxima[(row * level.Columns) + column]);
        return Raised(highest);
    }

    /// <summary>The largest squares are of 2^this cells.</summary>
    public int LastLevel => FirstLevel + levels.Length - 1;

    /// <summary>How many squares of 2^level cells lie side by side.</summary>
    public (int Rows, int Columns) SquaresOf(int level) => (levels[level - FirstLevel].Rows, levels[level - FirstLevel].Columns);

    /// <summary>The highest bare ground [m], whatever the floor, in each square of 2^level cells, in row-major order; −∞ where there is none.
    /// Good as long as this pyramid is.</summary>
    public unsafe float* AddressOf(int level) => levels[level - FirstLevel].Address;

    /// <summary>The highest corner of one cell [m]; −∞ where there is no ground.</summary>
    public float OfCell(int column, int row) => Raised(HighestOfCell(heights, (row * columns) + column, columns));

    private float Raised(float highest) => highest < floorM && highest > float.NegativeInfinity ? floorM : highest;

    private static float HighestOfCell(float[] heights, int post, int columns)
    {
        // Math.Max hands a NaN on, and so a hole at any corner is noticed.
        var highest = Math.Max(Math.Max(heights[post], heights[post + 1]), Math.Max(heights[post + columns], heights[post + columns + 1]));
        return float.IsNaN(highest) ? float.NegativeInfinity : highest;
    }

    private static Level SquaresOf(float[] heights, int rows, int columns)
    {
        var level = new Level(SquaresIn(rows - 1), SquaresIn(columns - 1));
        Parallel.For(0, level.Rows, square =>
        {
            var maxima = level.Maxima.AsSpan(square * level.Columns, level.Columns);
            var endRow = Math.Min((square + 1) << FirstLevel, rows - 1);
            for (var row = square << FirstLevel; row < endRow; row++)
            {
                for (var column = 0; column < columns - 1; column++)
                {
                    ref var highest = ref maxima[column >> FirstLevel];
                    highest = Math.Max(highest, HighestOfCell(heights, (row * columns) + column, columns));
                }
            }
        });
        return level;

        static int SquaresIn(int cells) => ((cells - 1) >> FirstLevel) + 1;
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
            // Held in place, so that the address may be handed to the processor.
            Maxima = GC.AllocateUninitializedArray<float>(rows * columns, pinned: true);
            Array.Fill(Maxima, float.NegativeInfinity);
        }

        public int Rows { get; }

        public int Columns { get; }

        public float[] Maxima { get; }

        // Maxima do not move.
        public unsafe float* Address => (float*)Unsafe.AsPointer(ref MemoryMarshal.GetArrayDataReference(Maxima));
    }
}
