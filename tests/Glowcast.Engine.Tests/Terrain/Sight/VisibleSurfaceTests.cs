using FsCheck.Xunit;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>The fast look around against the one that takes every step.</summary>
public class VisibleSurfaceTests
{
    [Property(MaxTest = 40)]
    public void On_random_ground_every_visible_step_is_found_and_no_other(int seed, ushort at, byte holes)
    {
        var grid = RoughGround.Of(seed, size: 161, holes: holes % 3 * 20);
        var point = grid.Posts.ToPoint(at % 256 * 160 / 255.0, at / 256 * 160 / 255.0);
        if (grid.HeightAt(point) is { } height) SeesTheSame(grid, new Place(point, height + Length.FromMetres(2 + (holes % 7 * 100))), columns: 30);
    }

    [Fact]
    public void Under_a_deck_it_is_the_same()
    {
        var grid = RoughGround.Of(seed: 5, size: 161, holes: 20).Under(Length.FromMetres(512.3));
        SeesTheSame(grid, new Place(grid.Posts.ToPoint(71.3, 90.2), Length.FromMetres(700)), columns: 90);
    }

    [Fact]
    public void From_a_post_the_rows_and_columns_of_posts_are_seen_too()
    {
        var grid = RoughGround.Of(seed: 4, size: 161, holes: 300);
        var eye = new Place(grid.Posts.ToPoint(80, 80), Length.FromMetres(3000));
        foreach (var degrees in (double[])[0, 90, 180, 270])
            SeesTheSame(grid, eye, VisibleSurface.From(grid, SightModel.Usual, eye, BearingSpan.FromDegrees(degrees - 1, degrees + 1), 1));
    }

    [Fact]
    public void The_line_due_east_that_leaves_the_northernmost_row_ends_there()
    {
        var grid = RoughGround.Of(seed: 6, size: 401);
        SeesTheSame(grid, new Place(grid.Posts.ToPoint(0, 0.01), Length.FromMetres(2000)), columns: 720);
    }

    [Fact]
    public void Across_pieces_of_a_long_line_and_on_a_projected_net_it_is_the_same()
    {
        var grid = new ElevationGrid(
            new GridPosts(900, 900, 5_000_000, 400_000, 300, 300, MapProjection.Utm(32, isNorth: true, Spheroid.Wgs84), "WGS 84 / UTM zone 32N"),
            [.. RoughGround.Of(seed: 8, size: 900).Heights], "made for a test");
        SeesTheSame(grid, new Place(grid.Posts.ToPoint(20, 870), Length.FromMetres(9000)), columns: 90);
    }

    [FactNeeds<SharedTiles>]
    public void On_real_mountains_every_visible_step_is_found_and_no_other() =>
        SeesTheSame(SharedData.Tile, Place.FromDegrees(44.2706, -71.3033, 1910), columns: 200);

    private static void SeesTheSame(ElevationGrid grid, Place eye, int columns) =>
        SeesTheSame(grid, eye, VisibleSurface.From(grid, SightModel.Usual, eye, BearingSpan.FromDegrees(0, 359.9999), columns));

    private static void SeesTheSame(ElevationGrid grid, Place eye, VisibleSurface seen)
    {
        foreach (var column in seen.Columns)
        {
            var (samples, edgeM) = SlowSurface.Along(grid, SightModel.Usual, eye, column.Bearing);
            Assert.Equal(samples, column.Samples);
            Assert.Equal(edgeM, column.GridEdge.Metres, 1e-6);
        }
    }
}
