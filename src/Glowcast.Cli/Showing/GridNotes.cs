using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Showing;

/// <summary>What is to be known of a grid before its answers are believed.</summary>
internal static class GridNotes
{
    public static void Write(Terminal terminal, ElevationGrid grid)
    {
        var posts = grid.Posts;
        if (grid.IsCut)
            terminal.Error.WriteLine($"Note: of {grid.Name} only {posts.Columns} x {posts.Rows} posts around the place are read; the grid's edge is theirs.");
    }
}
