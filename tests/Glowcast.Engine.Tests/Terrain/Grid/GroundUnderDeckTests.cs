using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>Ground under a sea of cloud, which shares the heights of the bare one, against a copy that has been raised.</summary>
public class GroundUnderDeckTests
{
    private static readonly ElevationGrid Bare = RoughGround.Of(seed: 12, size: 130, holes: 40);

    private static readonly ElevationGrid Raised = new(
        Bare.Posts, Array.ConvertAll(Bare.Heights.ToArray(), height => height < 480.5f ? 480.5f : height), "made for a test");

    private static readonly ElevationGrid Under = Bare.Under(Length.FromMetres(480.5));

    [Fact]
    public void Its_heights_are_those_of_the_raised_ground()
    {
        Assert.Equal(Raised.Relief, Under.Relief);
        Assert.Equal(Raised.Heights, Under.Heights);
        Assert.Equal(Raised.Row(77), Under.Row(77));
        for (var i = 0; i < 500; i++) Assert.Equal(Raised.HeightAtCells(i * 0.257, 128.9 - (i * 0.251)), Under.HeightAtCells(i * 0.257, 128.9 - (i * 0.251)));
    }

    [Fact]
    public void So_are_its_maxima()
    {
        for (var row = 0; row < 129; row++)
            for (var column = 0; column < 129; column++) Assert.Equal(Raised.Maxima.OfCell(column, row), Under.Maxima.OfCell(column, row));
        foreach (var size in (int[])[1, 3, 4, 5, 9, 33, 128])
            for (var corner = 0; corner + size < 129; corner += 7)
                Assert.Equal(Raised.Maxima.UpperBound(corner, 0, corner + size, size), Under.Maxima.UpperBound(corner, 0, corner + size, size));
    }

    [Fact]
    public void A_deck_over_a_deck_is_the_higher_of_the_two()
    {
        Assert.Equal(Raised.Heights, Under.Under(Length.FromMetres(300)).Heights);
        Assert.Equal(Under.Under(Length.FromMetres(700)).Heights, Bare.Under(Length.FromMetres(700)).Heights);
    }

    [Fact]
    public void An_upper_bound_is_one()
    {
        var random = new Random(1);
        for (var i = 0; i < 300; i++)
        {
            var (left, top, size) = (random.Next(100), random.Next(100), 1 + random.Next(28));
            var highest = Enumerable.Range(top, size + 1).SelectMany(row => Enumerable.Range(left, size + 1).Select(column => Under.Maxima.OfCell(column, row))).Max();
            Assert.True(Under.Maxima.UpperBound(left, top, left + size, top + size) >= highest);
        }
    }
}
