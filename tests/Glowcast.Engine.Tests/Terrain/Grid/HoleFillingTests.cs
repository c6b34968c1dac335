using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class HoleFillingTests
{
    private const int Size = 101;

    [Fact]
    public void On_a_slope_a_hole_is_filled_with_the_slope()
    {
        var grid = Filled((row, column) => Math.Abs(row - 40) + Math.Abs(column - 60) < 12);
        Assert.Equal((0, 265), (grid.Relief.Holes, grid.FilledPosts));
        for (var row = 0; row < Size; row++)
            for (var column = 0; column < Size; column++)
                Assert.Equal(Slope(row, column), grid.Row(row)[column], 0.1);
    }

    // f = x² − y² solves the Laplace equation, on the net of posts too.
    [Fact]
    public void On_a_saddle_a_hole_is_filled_with_the_saddle()
    {
        static double Saddle(int row, int column) => 500 + (((column - 50) * (column - 50)) - ((row - 50) * (row - 50)));
        var grid = Filled((row, column) => row is > 20 and < 60 && column is > 30 and < 75, Saddle);
        Assert.Equal(39 * 44, grid.FilledPosts);
        for (var row = 21; row < 60; row++)
            for (var column = 31; column < 75; column++)
                Assert.Equal(Saddle(row, column), grid.Row(row)[column], 0.5);
    }

    [Fact]
    public void What_is_filled_stays_between_the_lowest_and_the_highest_of_the_rim()
    {
        var rough = RoughGround.Of(seed: 3, size: Size);
        var grid = Filled((row, column) => row is > 40 and < 55 && column is > 40 and < 55, (row, column) => rough.Row(row)[column]);
        var rim = Enumerable.Range(41, 14).SelectMany(i => (float[])[rough.Row(40)[i], rough.Row(55)[i], rough.Row(i)[40], rough.Row(i)[55]]).ToList();
        for (var row = 41; row < 55; row++)
            for (var column = 41; column < 55; column++)
                Assert.InRange(grid.Row(row)[column], rim.Min(), rim.Max());
    }

    [Theory]
    [InlineData("wide", 51 * 3)]
    [InlineData("high", 3 * 51)]
    [InlineData("at the edge", 4)]
    [InlineData("a horseshoe", 5 + (60 * 2))]
    public void A_hole_too_large_to_tell_what_is_in_it_stays_a_hole(string which, int posts)
    {
        var grid = Filled((row, column) => which switch
        {
            "wide" => row is >= 30 and < 33 && column is >= 20 and < 71,
            "high" => row is >= 30 and < 81 && column is >= 20 and < 23,
            "at the edge" => row < 2 && column is 7 or 8,
            _ => (row is >= 20 and < 80 && column is 30 or 36) || (row == 79 && column is > 30 and < 36),
        });
        Assert.Equal((posts, 0), (grid.Relief.Holes, grid.FilledPosts));
    }

    [Fact]
    public void Beside_a_large_hole_small_ones_are_filled()
    {
        var grid = Filled((row, column) => (row < 60 && column < 70) || (row == 80 && column is 20 or 21));
        Assert.Equal((60 * 70, 2), (grid.Relief.Holes, grid.FilledPosts));
        Assert.Equal(Slope(80, 20), grid.Row(80)[20], 0.05);
    }

    [Fact]
    public void Nothing_is_filled_unasked()
    {
        var tile = Grids.Square(46, 7, (row, column) => row == 5 && column == 5 ? double.NaN : 100, size: Size);
        var twin = Grids.Square(46, 8, (_, _) => 100, size: Size);
        Assert.Equal((1, 0), Of(GridMosaic.Join([tile])));
        Assert.Equal((1, 0), Of(GridMosaic.Join([tile, twin])));
        Assert.Equal((0, 1), Of(GridMosaic.Join([tile, twin], new GridReading { FillHoles = true })));
        Assert.Equal((0, 1), Of(GridMosaic.Join([tile, twin], new GridReading { FillHoles = true }).Under(Length.FromMetres(50))));

        static (int, int) Of(ElevationGrid grid) => (grid.Relief.Holes, grid.FilledPosts);
    }

    private static double Slope(int row, int column) => 200 + (3 * row) + (7 * column);

    private static ElevationGrid Filled(Func<int, int, bool> isHole, Func<int, int, double>? height = null)
    {
        var tile = Grids.Square(46, 7, (row, column) => isHole(row, column) ? double.NaN : (height ?? Slope)(row, column), Size);
        return GridMosaic.Join([tile], new GridReading { FillHoles = true });
    }
}
