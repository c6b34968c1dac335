using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class CrestSharpnessTests
{
    [Fact]
    public void A_straight_ridge_drops_by_its_own_slope()
    {
        // 40 m down to either side of a ridge from north to south; along the ridge, and on its slopes, nothing stands out.
        var ridge = Grids.Square(46, 7, (_, column) => 1000 - (40 * Math.Abs(column - 50)), size: 101);
        Assert.Equal(40, DropM(ridge), 1e-3);
    }

    [Fact]
    public void A_plain_has_no_crests() => Assert.Equal(0, DropM(Grids.Square(46, 7, (_, _) => 300, size: 101)));

    [Fact]
    public void Beside_a_hole_there_is_no_crest() => Assert.Equal(
        0, DropM(Grids.Square(46, 7, (row, column) => (row + column) % 2 == 0 ? double.NaN : 500, size: 51)));

    private static double DropM(ElevationGrid grid) => CrestSharpness.RmsDropM(grid.Posts.Rows, grid.Posts.Columns, grid.Row);
}
