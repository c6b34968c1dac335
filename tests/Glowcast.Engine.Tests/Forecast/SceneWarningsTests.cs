using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Light;

namespace Glowcast.Engine.Tests.Forecast;

public class SceneWarningsTests
{
    [Theory]
    [InlineData(8, false)]
    [InlineData(0.01, true)]
    public void A_ridge_that_begins_at_the_tripod_leaves_no_valley_and_is_warned_of(double ridgeFromKm, bool isWarned)
    {
        var scene = Scene.Of(
            Valley.Grid, SightModel.Usual, Valley.Lookout, BearingSpan.FromDegrees(268, 272), LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(ridgeFromKm) });
        Assert.Equal(isWarned, SceneWarnings.Of(scene).Count == 1);
    }

    // A lone peak 15 km off in a plain, over whose curve the eye at 1.7 m sees no farther than 5 km: it takes up some 11 degrees.
    [Theory]
    [InlineData(260, 280, false)]
    [InlineData(240, 300, true)]
    public void A_span_of_which_little_is_ridge_is_warned_of_with_the_bearings_that_are(double fromDeg, double toDeg, bool isWarned)
    {
        var posts = new GridPosts(241, 361, 46.6, 6.75, 1 / 1200.0, 1 / 1200.0);
        var heights = new float[posts.Rows * posts.Columns];
        var (perRowM, perColumnM) = (92.6, 63.9);
        for (var i = 0; i < heights.Length; i++)
        {
            var (x, y) = (((i % posts.Columns) - 65) * perColumnM, ((i / posts.Columns) - 120) * perRowM);
            heights[i] = (float)(500 + Math.Max(0, 1200 - (0.8 * double.Hypot(x, y))));
        }
        var eye = new Place(GeoPoint.FromDegrees(46.5, 7), Length.FromMetres(501.7));
        var scene = Scene.Of(new ElevationGrid(posts, heights, "made"), SightModel.Usual, eye, BearingSpan.FromDegrees(fromDeg, toDeg), LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(8) });
        var warnings = SceneWarnings.Of(scene).Where(warning => warning.Contains("of the span shows ridge", StringComparison.Ordinal)).ToList();
        Assert.Equal(isWarned ? 1 : 0, warnings.Count);
        if (!isWarned) return;
        var ends = System.Text.RegularExpressions.Regex.Matches(warnings[0], "([0-9.]+)°").Select(match => double.Parse(match.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture)).ToList();
        Assert.InRange(ends[0], 262, 268);
        Assert.InRange(ends[1], 272, 278);
    }

    [Fact]
    public void A_scene_that_shows_no_ridge_has_its_own_answer() => Assert.Empty(SceneWarnings.Of(null));
}
