using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Light;

/// <summary>A user's own grid of reflectances.</summary>
public class SurfaceRasterTests
{
    private static readonly GridPosts Posts = new(3, 3, 46.002, 7, 0.001, 0.001);

    // Forest in the south, snow in the north, a hole in the north-east corner.
    private static readonly float[] Values = [0.8f, 0.8f, float.NaN, 0.4f, 0.4f, 0.4f, 0.05f, 0.05f, 0.05f];

    private static readonly Surfaces Own = new(Reflectances.Usual, Length.FromMetres(2000)) { Raster = SurfaceRaster.Of(new ElevationGrid(Posts, Values, "surfaces"), "conditions.surfaces") };

    [Theory]
    [InlineData("a post of forest", 46.0, 7.0, 1500, false, 0.05)]
    [InlineData("half-way from forest to rock", 46.0005, 7.0, 1500, false, 0.225)]
    [InlineData("the same over the snow line", 46.0005, 7.0, 2500, false, 0.225)]
    [InlineData("a hole, over the snow line", 46.0018, 7.0018, 2500, false, 0.8)]
    [InlineData("a hole, below it", 46.0018, 7.0018, 1500, false, 0.15)]
    [InlineData("outside, over the snow line", 46.1, 7.0, 2500, false, 0.8)]
    [InlineData("outside, below it", 46.1, 7.0, 1500, false, 0.15)]
    [InlineData("a sea of cloud over forest", 46.0, 7.0, 1500, true, 0.6)]
    public void Ground_gives_back_what_the_grid_says_and_where_it_says_nothing_the_rest_holds(string ground, double latitudeDeg, double longitudeDeg, double heightM, bool isDeck, double reflectance)
    {
        var patch = new GroundPatch(0, PatchRole.Ridge, Place.FromDegrees(latitudeDeg, longitudeDeg, heightM), Length.FromKilometres(9), Angle.Zero, Angle.FromDegrees(1), 1e-4);
        Assert.True(Math.Abs(Own.Of(patch, isDeck) - reflectance) < 1e-6, ground);
    }

    [Theory]
    [InlineData(1.2f, "1.2")]
    [InlineData(-0.1f, "-0.1")]
    [InlineData(255f, "255")]
    public void What_is_no_reflectance_is_refused_with_what_would_be_right(float value, string named)
    {
        float[] values = [.. Values];
        values[4] = value;
        var refused = Assert.Throws<BadInputException>(() => SurfaceRaster.Of(new ElevationGrid(Posts, values, "percent.asc"), "conditions.surfaces"));
        var fault = Assert.Single(refused.Faults);
        Assert.Equal("conditions.surfaces", fault.Field);
        Assert.Contains("percent.asc", fault.Message, StringComparison.Ordinal);
        Assert.Contains(named, fault.Message, StringComparison.Ordinal);
        Assert.Contains("between 0 and 1", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_grid_of_nothing_but_holes_is_refused() =>
        Assert.Throws<BadInputException>(() => SurfaceRaster.Of(new ElevationGrid(Posts, [.. Enumerable.Repeat(float.NaN, 9)], "empty.asc"), "conditions.surfaces"));
}
