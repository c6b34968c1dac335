namespace Glowcast.Engine.Terrain;

/// <summary>Part of a net: its columns from left and its rows from top on.</summary>
internal readonly record struct GridWindow(int Left, int Top, int Columns, int Rows)
{
    public int Right => Left + Columns;

    public int Bottom => Top + Rows;

    public bool IsEmpty => Columns <= 0 || Rows <= 0;

    public static GridWindow Whole(GridPosts posts) => new(0, 0, posts.Columns, posts.Rows);

    /// <summary>What two windows of one net share.</summary>
    public GridWindow Common(GridWindow other)
    {
        var (left, top) = (Math.Max(Left, other.Left), Math.Max(Top, other.Top));
        return new GridWindow(left, top, Math.Min(Right, other.Right) - left, Math.Min(Bottom, other.Bottom) - top);
    }
}
