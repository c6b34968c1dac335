using System.Collections.Concurrent;

namespace Glowcast.Engine.Terrain;

/// <summary>Something that changes evenly over a grid, worked out at the knots of a wide net when it is first asked for, to be taken linearly between.
/// Safe for many threads.</summary>
/// <remarks>What belongs to a way of a ray depends, in latitude and longitude, on the latitude alone.</remarks>
internal sealed class KnotNet<T>(GridPosts posts, Func<Cell, T> at)
{
    private readonly ConcurrentDictionary<(int Row, int Column), Lazy<T>> knots = new();

    /// <summary>The knots around the places of one block.</summary>
    public KnotMesh<T> For(FanBlock block)
    {
        var (top, bottom) = (RowOf(block.Row), RowOf(block.Row + 1));
        var (left, right) = posts.Projection is null ? ((posts.Columns - 1) / 2, (posts.Columns - 1) / 2) : (ColumnOf(block.Column), ColumnOf(block.Column + 1));
        return new KnotMesh<T>(top, left, bottom, right, At(top, left), At(top, right), At(bottom, left), At(bottom, right));
    }

    private int RowOf(int block) => Math.Min(block * FanBlock.Rows, posts.Rows - 1);

    private int ColumnOf(int block) => Math.Min(block * FanBlock.Columns, posts.Columns - 1);

    private T At(int row, int column) => knots.GetOrAdd((row, column), knot => new Lazy<T>(() => at(new Cell(knot.Column, knot.Row)))).Value;
}

/// <summary>Four knots, and what stands at them; on both sides the same where only the latitude counts.</summary>
internal sealed record KnotMesh<T>(int Top, int Left, int Bottom, int Right, T TopLeft, T TopRight, T BottomLeft, T BottomRight)
{
    public bool IsColumn => Left == Right;

    /// <summary>How far from the upper knots to the lower ones, and from the left ones to the right ones, a place is: 0 to 1.</summary>
    public (float Down, float Across) Between(Cell from) => (Share(from.Y, Top, Bottom), Share(from.X, Left, Right));

    private static float Share(double at, int from, int to) => to > from ? (float)((at - from) / (to - from)) : 0;
}
