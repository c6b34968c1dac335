using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Glowcast.Engine.Terrain;

/// <summary>A grid as rays walk over it that step along one of its axes (major), with whatever lies across (minor).</summary>
internal sealed class FanGround
{
    private readonly MaximumPyramid maxima;
    private readonly FanSquares[] squares;

    /// <param name="byRows">Whether a step leads from row to row, else from column to column.</param>
    public FanGround(ElevationGrid grid, bool byRows)
    {
        var (rows, columns) = (grid.Posts.Rows, grid.Posts.Columns);
        (Majors, Minors, MajorStride, MinorStride) = byRows ? (rows, columns, columns, 1) : (columns, rows, 1, columns);
        FloorM = grid.FloorM;
        HasHoles = grid.Relief.Holes > 0;
        HighestM = Math.Max((float)(grid.Relief.Highest?.Metres ?? double.NegativeInfinity), FloorM);
        maxima = grid.Maxima;
        squares = [.. Enumerable.Range(0, maxima.LastLevel + 1).Select(level => level < MaximumPyramid.FirstLevel ? default : new FanSquares(maxima, level, byRows, FloorM))];
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

    /// <summary>Some posts have no height.</summary>
    public bool HasHoles { get; }

    public int LastLevel => maxima.LastLevel;

    public FanSquares SquaresOf(int level) => squares[level];
}

/// <summary>Squares of 2^level cells, and the highest ground in each.</summary>
internal readonly unsafe struct FanSquares
{
    private readonly float* maxima;
    private readonly int level;
    private readonly int majors;
    private readonly int lastMinor;
    private readonly int majorStride;
    private readonly int minorStride;
    private readonly float floorM;

    public FanSquares(MaximumPyramid maxima, int level, bool byRows, float floorM)
        : this(maxima.AddressOf(level), maxima.SquaresOf(level), level, byRows, floorM)
    {
    }

    /// <param name="maxima">Of the squares, row-major, held in place as long as this is used.</param>
    /// <param name="squares">How many there are from north to south and from west to east.</param>
    public FanSquares(float* maxima, (int Down, int Across) squares, int level, bool byRows, float floorM)
    {
        var (down, across) = squares;
        this.maxima = maxima;
        (this.level, this.floorM) = (level, floorM);
        (majors, lastMinor, majorStride, minorStride) = byRows ? (down, across - 1, across, 1) : (across, down - 1, 1, across);
    }

    /// <summary>The highest ground [m] in squares of one major, from the row of cells low to the row high; what lies off the grid across counts as
    /// some ground in it, and holes as the floor.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<float> Highest(int square, Vector256<int> low, Vector256<int> high, bool isThree)
    {
        if ((uint)square >= (uint)majors) return Vector256.Create(float.NegativeInfinity);
        var (first, last) = (Vector256.Create(square * majorStride), Vector256.Create((uint)lastMinor));
        low = Vector256.Min(last, (low >> level).AsUInt32()).AsInt32();
        high = Vector256.Min(last, (high >> level).AsUInt32()).AsInt32();
        var heightM = Vector256.MaxNative(EightValues.At(maxima, first + (low * minorStride)), EightValues.At(maxima, first + (high * minorStride)));
        if (isThree)
        {
            for (low += Vector256<int>.One; Vector256.LessThanAny(low, high); low = Vector256.Min(high, low + Vector256<int>.One))
                heightM = Vector256.MaxNative(heightM, EightValues.At(maxima, first + (Vector256.Min(low, high) * minorStride)));
        }
        return Vector256.MaxNative(heightM, Vector256.Create(floorM));
    }
}
