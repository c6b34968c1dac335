using FsCheck.Xunit;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>The fast search against a slow and obvious one, on random ground.</summary>
public class SightRayTests
{
    private const double StepM = 2;

    [Property(MaxTest = 60)]
    public void The_search_finds_what_small_steps_find(int seed, byte azimuth, byte place)
    {
        var random = new Random(seed);
        // Roughness in several sizes; posts every 36″.
        var big = Enumerable.Range(0, 100).Select(_ => random.NextDouble() * 800).ToArray();
        var grid = Grids.Square(46, 7, (row, column) => big[(row / 12 * 9) + (column / 12)] + (random.NextDouble() * 150), size: 101);
        var point = GeoPoint.FromDegrees(46.2 + (place % 16 * 0.04), 7.2 + (place / 16 * 0.04));
        var eye = new Place(point, grid.HeightAt(point)!.Value);
        var bearing = Azimuth.FromDegrees(azimuth * 360 / 256.0);

        var found = new SightLines(grid, SightModel.Usual with { BeyondGrid = null }).HorizonOf(eye, bearing);
        var (angle, distanceM) = SlowHorizon.Of(grid, eye, bearing, StepM);

        // The search may run a ten-thousandth of a cell (9 cm here) beside the true line, on slopes of up to 1.3.
        var beside = double.RadiansToDegrees(0.12 / distanceM);
        Assert.True(found.Altitude!.Value.Degrees >= angle - beside, $"steps found {angle}° at {distanceM} m, the search {found.Altitude!.Value.Degrees} at {found.Distance!.Value.Metres}");
        // Between two steps the surface cannot rise much: slopes here are below 1000 m in 700 m.
        var slack = double.RadiansToDegrees(((1.5 * StepM) + 0.12) / found.Distance!.Value.Metres);
        Assert.True(found.Altitude!.Value.Degrees <= angle + slack, $"steps found {angle}° at {distanceM} m, the search {found.Altitude} at {found.Distance}");
    }

    [Fact]
    public void A_ray_along_the_posts_themselves_does_not_stand_still()
    {
        var grid = Grids.Square(0, 10, (row, column) => row == 20 || column == 80 ? 500 : 0, size: 101);
        var sights = new SightLines(grid, SightModel.Usual);
        var corner = Place.FromDegrees(0.5, 10.5, 2);
        foreach (var azimuth in (double[])[0, 90, 180, 270])
        {
            var horizon = sights.HorizonOf(corner, Azimuth.FromDegrees(azimuth));
            Assert.Equal(azimuth is 0 or 90, horizon.Altitude!.Value > Angle.FromDegrees(0.5));
        }
    }
}
