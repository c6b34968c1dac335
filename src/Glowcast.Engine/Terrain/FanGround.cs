using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Glowcast.Engine.Terrain;

/// <summary>A grid as rays walk over it that step along one of its axes (major), with whatever lies across (minor).</summary>
internal sealed class FanGround
{
    private readonly MaximumPyramid maxima;
    private readonly Squares[] squares;

    /// <param name="byRows">Whether a step leads from row to row, else from column to column.</param>
    public FanGround(ElevationGrid grid, bool byRows)
    {
        var (rows, columns) = (grid.Posts.Rows, grid.Posts.Columns);
        (Majors, Minors, MajorStride, MinorStride) = byRows ? (rows, columns, columns, 1) : (columns, rows, 1, columns);
        FloorM = grid.FloorM;
        HighestM = Math.Max((float)(grid.Relief.Highest?.Metres ?? double.NegativeInfinity), FloorM);
        maxima = grid.Maxima;
        squares = [.. Enumerable.Range(0, maxima.LastLevel + 1).Select(level =>
        {
            if (level < MaximumPyramid.FirstLevel) return default;
            var (down, across) = maxima.SquaresOf(level);
            return byRows ? new Squares(down, across - 1, across, 1) : new Squares(across, down - 1, 1, across);
        })];
    }

    public int Majors { get; }

    public int Minors { get; }

    /// <summary>From a post to the next one along the axis, in row-major order.</summary>
    public int MajorStride { get; }

    /// <summary>And across it.</summary>
    public int MinorStride { get; }

    /// <summary>Ground lower than this [m] counts as so high; −∞ for none.</summary>
    public float FloorM { get; }

    /// <summary>No ground is higher [m].</summary>
    public float HighestM { get; }

    public int LastLevel => maxima.LastLevel;

    /// <summary>The highest ground [m] in squares of 2^level cells, one major, from the row of cells low to the row high; what lies off the grid
    /// across counts as what is nearest to it, and holes as the floor.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<float> Highest(int level, int square, Vector256<int> low, Vector256<int> high)
    {
        ref readonly var net = ref squares[level];
        if ((uint)square >= (uint)net.Majors) return Vector256.Create(float.NegativeInfinity);
        var (first, last) = (Vector256.Create(square * net.Along), Vector256.Create(net.LastMinor));
        low = Vector256.Min(last, Vector256.Max(Vector256<int>.Zero, low >> level));
        high = Vector256.Min(last, Vector256.Max(Vector256<int>.Zero, high >> level));
        var heightM = Vector256.MaxNative(maxima.OfSquares(level, first + (low * net.Across)), maxima.OfSquares(level, first + (high * net.Across)));
        // A ray that goes aside by more than it goes on touches three.
        for (low += Vector256<int>.One; Vector256.LessThanAny(low, high); low = Vector256.Min(high, low + Vector256<int>.One))
            heightM = Vector256.MaxNative(heightM, maxima.OfSquares(level, first + (Vector256.Min(low, high) * net.Across)));
        return Vector256.MaxNative(heightM, Vector256.Create(FloorM));
    }

    private readonly record struct Squares(int Majors, int LastMinor, int Along, int Across);
}
