using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>How much is wanted of the ground in grid files.</summary>
public sealed record GridReading
{
    /// <summary>All of it, as it is.</summary>
    public static GridReading Whole { get; } = new();

    /// <summary>The place that is asked about. Where one net has more posts than can be held, the ground around this place
    /// is read; null to refuse it then.</summary>
    public GeoPoint? Around { get; init; }

    /// <summary>No ground farther than this north, south, east or west of the place is read; null for no limit.</summary>
    public Length? Within { get; init; }

    /// <summary>No more posts are held, with what lies between the grids.</summary>
    public long MostPosts { get; init; } = ElevationGrid.MostPosts;

    /// <summary>Small holes are to be filled (<see cref="HoleFilling"/>); the grid says how many posts that were.</summary>
    public bool FillHoles { get; init; }
}
