using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Showing;

/// <summary>What is to be known of a grid before its answers are believed.</summary>
internal static class GridNotes
{
    public static void Write(Terminal terminal, ElevationGrid grid)
    {
        var posts = grid.Posts;
        if (grid.IsCut)
            terminal.Tell($"Note: of {grid.Name} only {posts.Columns} x {posts.Rows} posts around the place are read; the grid's edge is theirs.");
        if (grid.UnmarkedHoles > 0)
            terminal.Tell($"Note: {grid.Name}: {grid.UnmarkedHoles} posts hold a value that can only stand for no data, such as -9999, though the file does not say so; they are taken as posts without a height.");
        if (Holes(grid) is { } holes) terminal.Tell($"Note: {grid.Name}: {holes}.");
    }

    /// <summary>How far heights may be off, and who says so.</summary>
    public static string HeightError(HeightError error) => error switch
    {
        { Source: HeightErrorSource.Grid } => $"{error.Size.Metres:0.##} m (standard deviation), by the file",
        { Source: HeightErrorSource.Plan } => $"{error.Size.Metres:0.##} m (standard deviation), by the plan",
        _ => $"{error.Size.Metres:0.##} m (standard deviation), assumed: the file says nothing",
    };

    /// <summary>Null where there are none, and never were.</summary>
    public static string? Holes(ElevationGrid grid) => (grid.Relief.Holes, grid.FilledPosts) switch
    {
        (0, 0) => null,
        (var holes, 0) => $"{holes} posts have no height and block nothing",
        (0, var filled) => $"{filled} posts without a height were filled from around them",
        var (holes, filled) => $"{filled} posts without a height were filled from around them; {holes} in large holes block nothing",
    };
}
