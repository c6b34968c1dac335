using System.Text;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>Whether −9999 and its like are ground or a mark for no data that the file does not own up to.</summary>
public class UnmarkedNoDataTests
{
    public static TheoryData<string, long, Func<int, int, double>> Grounds() => new()
    {
        { "a hill with a few marks", 3, (row, column) => row == 4 && column is 7 or 8 or 40 ? -9999 : 100 + row },
        { "half of it sea that was not surveyed", 27 * MadeTiff.Rows, (row, column) => column < 27 ? -9999 : 100 + row },
        { "an island in marks", (MadeTiff.Rows * MadeTiff.Columns) - 1, (row, column) => (row, column) == (9, 9) ? 3 : -9999 },
        { "marks of -999 beside a shore", 2, (row, column) => row == 4 && column is 7 or 9 ? -999 : column - 10 },
        { "two marks beside each other", 10, (row, column) => row == 4 && column < 10 ? -9999 + (column % 2) : 100 + row },
        { "a sea floor across -9999", 0, (row, column) => -9990 - (column / 3.0) },
        { "a sea floor across -9999 in whole metres", 0, (row, column) => -9990 - column },
        { "a trench beside an island", 0, (row, column) => column < 20 ? 50 : -9999 + ((column - 30) * 40) + row },
        { "a pit below the sea", 0, (row, column) => -430 + row + column },
        { "a flat lake of -480", 0, (_, column) => column < 20 ? -480 : 100 },
    };

    [Theory]
    [MemberData(nameof(Grounds))]
    public void Alone_at_its_depth_it_is_a_mark(string which, long marks, Func<int, int, double> height)
    {
        _ = which;
        foreach (var tiled in new[] { false, true })
        {
            var grid = Read(new MadeTiff { Tiled = tiled, NoData = null, Format = BitMiracle.LibTiff.Classic.SampleFormat.IEEEFP, Bits = 32, Height = height });
            Assert.Equal((marks, (int)marks), (grid.UnmarkedHoles, grid.Relief.Holes));
            for (var row = 0; row < MadeTiff.Rows; row++)
                for (var column = 0; column < MadeTiff.Columns; column++)
                    Assert.True(float.IsNaN(grid.Row(row)[column]) || grid.Row(row)[column] == (float)height(row, column));
        }
    }

    [Fact]
    public void It_is_told_beside_holes_that_are_owned_up_to_and_through_a_join()
    {
        var text = "ncols 4\nnrows 3\nxllcorner 7.5\nyllcorner 46\ncellsize 0.01\nNODATA_value -1\n1 2 3 4\n5 6 -9999 8\n-1 10.5 11 12\n";
        var grid = GridFile.Read(new MemoryStream(Encoding.ASCII.GetBytes(text)), "made.asc");
        Assert.Equal((1L, 2), (grid.UnmarkedHoles, grid.Relief.Holes));
        Assert.Equal(1, GridMosaic.Join([grid], new GridReading { FillHoles = true }).UnmarkedHoles);
        Assert.Equal(1, grid.With(HeightError.Usual).UnmarkedHoles);
    }

    private static ElevationGrid Read(MadeTiff made)
    {
        using var stream = made.Write();
        return GridFile.Read(stream, "made.tif");
    }
}
