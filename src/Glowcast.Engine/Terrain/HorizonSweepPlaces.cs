using System.Runtime.Intrinsics;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Places whose horizons a sweep is to give, put together by neighbourhood.</summary>
public sealed class SweepPlaces
{
    private const int CellsOfBlock = HorizonSweep.BlockRows * HorizonSweep.BlockColumns;

    private readonly Cell[] cells;
    private readonly float[] heightsM;

    /// <exception cref="ArgumentException">A place lies outside the grid.</exception>
    public SweepPlaces(ElevationGrid grid, IReadOnlyList<Place> places)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentNullException.ThrowIfNull(places);
        var at = places.Select(place => CellOf(grid, place)).ToArray();
        var across = (grid.Posts.Columns / HorizonSweep.BlockColumns) + 1;
        var keys = Array.ConvertAll(at, cell => KeyOf(cell, across));
        Order = [.. Enumerable.Range(0, places.Count)];
        Array.Sort(keys, Order);
        cells = Array.ConvertAll(Order, i => at[i]);
        heightsM = Array.ConvertAll(Order, i => (float)places[i].Height.Metres);
        Blocks = BlocksOf(keys, across, grid.Posts);
    }

    public int Count => cells.Length;

    /// <summary>Which place of the caller's list each of ours is.</summary>
    internal int[] Order { get; }

    internal IReadOnlyList<Block> Blocks { get; }

    /// <summary>The post at or before a place, and what is left across [cells].</summary>
    internal (int Major, int Minor, float MinorPart) At(SweepAxes axes, int i)
    {
        var across = axes.MinorOf(cells[i]);
        return ((int)axes.MajorOf(cells[i]), (int)across, (float)(across - (int)across));
    }

    /// <summary>Eight neighbours; past the end of the block the last one again.</summary>
    internal SweepEyes Eyes(SweepAxes axes, int first, int end)
    {
        Span<int> major = stackalloc int[Vector256<int>.Count];
        Span<int> minor = stackalloc int[Vector256<int>.Count];
        Span<float> majorPart = stackalloc float[Vector256<float>.Count];
        Span<float> minorPart = stackalloc float[Vector256<float>.Count];
        Span<float> heightM = stackalloc float[Vector256<float>.Count];
        for (var lane = 0; lane < Vector256<int>.Count; lane++)
        {
            var i = Math.Min(first + lane, end - 1);
            var (alongCells, acrossCells) = (axes.MajorOf(cells[i]), axes.MinorOf(cells[i]));
            (major[lane], minor[lane], heightM[lane]) = ((int)alongCells, (int)acrossCells, heightsM[i]);
            (majorPart[lane], minorPart[lane]) = ((float)(alongCells - major[lane]), (float)(acrossCells - minor[lane]));
        }
        return new SweepEyes(
            Vector256.Create<int>(major), Vector256.Create<int>(minor),
            Vector256.Create<float>(majorPart), Vector256.Create<float>(minorPart), Vector256.Create<float>(heightM));
    }

    private static Cell CellOf(ElevationGrid grid, Place place)
    {
        if (!grid.Contains(place.Point)) throw new ArgumentException($"{place.Point} lies outside the grid {grid.Name}.", nameof(place));
        var (x, y) = grid.Posts.ToCells(place.Point);
        return new Cell(x, y);
    }

    /// <summary>Block by block, and within a block as one reads: neighbours look at the same ground.</summary>
    private static long KeyOf(Cell cell, int across)
    {
        var (row, column) = ((int)cell.Y, (int)cell.X);
        var block = ((long)(row / HorizonSweep.BlockRows) * across) + (column / HorizonSweep.BlockColumns);
        return (block * CellsOfBlock) + (row % HorizonSweep.BlockRows * HorizonSweep.BlockColumns) + (column % HorizonSweep.BlockColumns);
    }

    private static List<Block> BlocksOf(long[] keys, int across, GridPosts posts)
    {
        var blocks = new List<Block>();
        for (var from = 0; from < keys.Length;)
        {
            var to = from + 1;
            var block = keys[from] / CellsOfBlock;
            while (to < keys.Length && keys[to] / CellsOfBlock == block) to++;
            var (row, column) = ((int)(block / across) * HorizonSweep.BlockRows, (int)(block % across) * HorizonSweep.BlockColumns);
            var (endRow, endColumn) = (Math.Min(row + HorizonSweep.BlockRows, posts.Rows - 1), Math.Min(column + HorizonSweep.BlockColumns, posts.Columns - 1));
            blocks.Add(new Block(from, to, new Cell((column + endColumn) / 2.0, (row + endRow) / 2.0)));
            from = to;
        }
        return blocks;
    }

    /// <summary>Places that share the way of their block's middle: from…to−1.</summary>
    internal readonly record struct Block(int From, int To, Cell Middle);
}
