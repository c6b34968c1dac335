using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Asking;

/// <summary>Points of the ground of a grid, with their heights.</summary>
internal static class Ground
{
    /// <param name="field">Where the user named the point.</param>
    /// <param name="above">How high above the ground.</param>
    /// <exception cref="BadInputException">The grid has no ground there.</exception>
    public static Place At(ElevationGrid grid, GeoPoint point, string field, Length above = default)
    {
        if (grid.HeightAt(point) is { } height) return new Place(point, height + above);
        var posts = grid.Posts;
        throw new BadInputException(field, grid.Contains(point)
            ? $"Stands beside a hole in {grid.Name}, which has no height there; move it, or take a grid without the hole. Got {point}."
            : $"Must lie in {grid.Name}, from {posts.SouthDeg:0.####} to {posts.NorthDeg:0.####} latitude and {posts.WestDeg:0.####} to {posts.EastDeg:0.####} longitude; got {point}.");
    }
}
