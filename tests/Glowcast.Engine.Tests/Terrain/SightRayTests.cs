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
        var (angle, distanceM) = BySmallSteps(grid, eye, bearing);

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

    private static (double AngleDeg, double DistanceM) BySmallSteps(ElevationGrid grid, Place eye, Azimuth azimuth)
    {
        var arc = GeodesicArcWalk(eye, azimuth);
        var best = (Angle: double.NegativeInfinity, Distance: double.NaN);
        for (var d = grid.Posts.CellSize.Metres; ; d += StepM)
        {
            var point = arc(d);
            if (!grid.Contains(point)) return (double.RadiansToDegrees(best.Angle), best.Distance);
            var angle = Math.Atan((grid.HeightAt(point)!.Value - eye.Height).Metres / d) - (d * 0.87 / (2 * 6_371_000.0));
            if (angle > best.Angle) best = (angle, d);
        }
    }

    /// <summary>Great-circle steps on the sphere that osculates the ellipsoid along the way, 50 m at a time.</summary>
    private static Func<double, GeoPoint> GeodesicArcWalk(Place eye, Azimuth azimuth)
    {
        const double Piece = 50;
        var nodes = new List<(double Lat, double Lon, double Az)> { (eye.Point.Latitude.Radians, eye.Point.Longitude.Radians, azimuth.Radians) };
        return d =>
        {
            while ((nodes.Count - 1) * Piece < d)
            {
                var (lat, lon, az) = nodes[^1];
                var middle = Slopes(lat + (Slopes(lat, az).Lat * Piece / 2), az + (Slopes(lat, az).Az * Piece / 2));
                nodes.Add((lat + (middle.Lat * Piece), lon + (middle.Lon * Piece), az + (middle.Az * Piece)));
            }
            var i = Math.Min((int)(d / Piece), nodes.Count - 2);
            var t = (d / Piece) - i;
            return GeoPoint.FromDegrees(
                double.RadiansToDegrees(nodes[i].Lat + (t * (nodes[i + 1].Lat - nodes[i].Lat))),
                double.RadiansToDegrees(nodes[i].Lon + (t * (nodes[i + 1].Lon - nodes[i].Lon))));
        };
    }

    private static (double Lat, double Lon, double Az) Slopes(double lat, double az)
    {
        var n = Wgs84.PrimeVerticalRadiusM(Math.Sin(lat));
        return (Math.Cos(az) / Wgs84.MeridianRadiusM(Math.Sin(lat)), Math.Sin(az) / (n * Math.Cos(lat)), Math.Tan(lat) * Math.Sin(az) / n);
    }
}
