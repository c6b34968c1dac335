using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>A grid whose place is known and whose heights still lie in their file.</summary>
/// <remarks>To be read once, while the stream it was opened on is open.</remarks>
public abstract class GridSource
{
    private protected GridSource(string name, GridPosts posts, string? verticalDatum) =>
        (Name, Posts, VerticalDatum) = (name, posts, verticalDatum);

    /// <summary>The file's name.</summary>
    public string Name { get; }

    public GridPosts Posts { get; }

    /// <summary>What heights are counted from, by name; null where the source does not say.</summary>
    public string? VerticalDatum { get; }

    /// <summary>By how much the heights may be off.</summary>
    public HeightError HeightError { get; private protected init; } = HeightError.Usual;

    /// <summary>Memory that reading needs for the time being, besides four bytes for each height.</summary>
    public virtual long ReadingBytes => 1 << 20;

    /// <summary>Posts that held a value which can only stand for no data, though the file does not say so; known once it has been read.</summary>
    internal long UnmarkedHoles { get; private set; }

    internal static GridSource Of(ElevationGrid grid) => new InMemory(grid) { HeightError = grid.HeightError, UnmarkedHoles = grid.UnmarkedHoles };

    /// <summary>Hands over the heights of a window, piece by piece; nothing else is kept in memory.</summary>
    /// <exception cref="BadInputException">The file is cut off, or damaged, or holds what no ground on earth has.</exception>
    internal void Read(GridWindow window, TakeHeights take)
    {
        if (window.IsEmpty) return;
        var unmarked = new UnmarkedNoData(take, Name);
        ReadPieces(window, (row, column, heights) =>
        {
            PlausibleHeights.Check(heights, row, column, Name);
            if (row < window.Top || row >= window.Bottom) return;
            var (from, to) = (Math.Max(window.Left, column), Math.Min(window.Right, column + heights.Length));
            if (from < to) take(row, from, unmarked.Without(row, from, heights[(from - column)..(to - column)]));
        });
        UnmarkedHoles += unmarked.Posts;
    }

    /// <summary>Hands over all heights of the window, each once; more of them than that do no harm.</summary>
    private protected abstract void ReadPieces(GridWindow window, TakeHeights take);

    private sealed class InMemory(ElevationGrid grid) : GridSource(grid.Name, grid.Posts, grid.VerticalDatum)
    {
        public override long ReadingBytes => 0;

        private protected override void ReadPieces(GridWindow window, TakeHeights take)
        {
            for (var row = window.Top; row < window.Bottom; row++) take(row, 0, grid.Row(row));
        }
    }
}
