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

    [Fact]
    public void A_scene_that_shows_no_ridge_has_its_own_answer() => Assert.Empty(SceneWarnings.Of(null));
}
