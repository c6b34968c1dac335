using System.Runtime.Intrinsics;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>The loops that read heights by their addresses, with heights that begin or end at an unreadable page: a read before the first
/// or after the last ends the test's process.</summary>
/// <remarks>Rows in the north touch the page before and rows in the south the page after; a step over the western edge of the first
/// row, or over the eastern edge of the last, reads the page too.</remarks>
public unsafe class GuardPageTests
{
    private const int Size = 73;

    [TheoryNeeds<GuardedMemory>]
    [InlineData(false, false)]
    [InlineData(false, true)]
    [InlineData(true, false)]
    [InlineData(true, true)]
    public void Rays_read_no_height_off_the_grid(bool atEnd, bool isExact)
    {
        var grid = RoughGround.Of(seed: 5, size: Size, holes: 6);
        using var guarded = new GuardedMemory(grid.BareHeights, atEnd);
        fixed (float* heights = grid.BareHeights) Assert.Equal(Tangents(grid, heights, isExact), Tangents(grid, guarded.Numbers, isExact));
    }

    [TheoryNeeds<GuardedMemory>]
    [InlineData(false, false)]
    [InlineData(false, true)]
    [InlineData(true, false)]
    [InlineData(true, true)]
    public void Squares_are_read_inside_the_grid_wherever_they_are_asked_for(bool atEnd, bool byRows)
    {
        const int Down = 5;
        const int Across = 7;
        float[] maxima = [.. Enumerable.Range(0, Down * Across).Select(i => (float)i)];
        using var guarded = new GuardedMemory(maxima, atEnd);
        var squares = new FanSquares(guarded.Numbers, (Down, Across), 2, byRows, float.NegativeInfinity);
        int[] places = [-1000, -1, 0, 1, 19, 20, 27, 28, 1000];
        foreach (var square in places)
            foreach (var (low, high) in places.SelectMany(low => places.Select(high => (low, high))))
            {
                var highest = squares.Highest(square, Vector256.Create(Math.Min(low, high)), Vector256.Create(Math.Max(low, high)), isThree: true);
                Assert.True(Vector256.LessThanOrEqualAll(highest, Vector256.Create((float)maxima[^1])), $"{square}, {low} to {high}");
            }
    }

    /// <summary>The greatest tangents from the corners and the edges of the grid, at posts and beside them, all around.</summary>
    private static List<float> Tangents(ElevationGrid grid, float* heights, bool isExact)
    {
        var (rows, columns) = (grid.Posts.Rows, grid.Posts.Columns);
        var places = (
            from x in (double[])[0, 0.3, columns / 2.0, columns - 1.4, columns - 1]
            from y in (double[])[0, 0.4, rows / 2.0, rows - 1.3, rows - 1]
            select new Place(grid.Posts.ToPoint(x, y), Length.FromMetres(900))).ToList();
        var (byRows, byColumns) = (new FanGround(grid, byRows: true), new FanGround(grid, byRows: false));
        var net = new FanNet(grid.Posts, FanDirections.All([.. Enumerable.Range(0, 360).Select(degrees => Azimuth.FromDegrees(degrees))]));
        var rays = new FanRays(heights, byRows, (float)SightModel.Usual.DropPerMetre, (float)grid.Posts.CellSize.Metres);
        var tangents = new List<float>();
        foreach (var block in FanBlock.Of(places, grid))
        {
            var mesh = net.For(block);
            foreach (var (_, cell) in block.Places)
                for (var i = 0; i < net.Packets.Count; i++)
                {
                    if (mesh.Ways(i, cell) is not { } ways) continue;
                    var (packet, ground) = (net.Packets[i], net.Packets[i].Axes.ByRows ? byRows : byColumns);
                    rays.Aim(ground, ways, new FanEyes(packet.Axes, cell, 900));
                    var search = new FanSearch(rays, ground.LastLevel, packet.Floor, packet.Ceiling, isExact);
                    search.Guess(Vector256.Create(0f, 30, 90, 500, 1000, 3000, 9000, 90_000));
                    search.Run();
                    for (var lane = 0; lane < Vector256<float>.Count; lane++) tangents.Add(search.Best[lane]);
                }
        }
        Assert.True(tangents.Count > 25 * 300);
        return tangents;
    }
}
