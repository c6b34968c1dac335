using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class RealGroundTests
{
    private static readonly SightModel NothingBeyond = SightModel.Usual with { BeyondGrid = null };

    // By numpy from the file that the grid was made from, and the same by gdallocationinfo -valonly FILE COLUMN ROW (GDAL 3.6.2).
    [Theory]
    [InlineData(0, 0, 483)]
    [InlineData(402, 343, 272)]
    [InlineData(200, 100, 522)]
    [InlineData(0, 171, 689)]
    [InlineData(57, 301, 665)]
    [InlineData(333, 12, 491)]
    [InlineData(219, 297, 1076)]
    public void Its_heights_are_those_another_reader_finds(int column, int row, double height) =>
        Assert.Equal(height, RealGround.Grid.Row(row)[column]);

    // gdalinfo -stats: size, minimum, maximum and origin; gdallocationinfo -wgs84 -valonly at -84.25 36.6.
    [Fact]
    public void It_lies_where_another_reader_puts_it()
    {
        var grid = RealGround.Grid;
        Assert.Equal((344, 403, 236, 1076, 0), (grid.Posts.Rows, grid.Posts.Columns, grid.Relief.Lowest!.Value.Metres, grid.Relief.Highest!.Value.Metres, grid.Relief.Holes));
        Assert.Equal(36.732916666666668 - (0.5 / 1200), grid.Posts.NorthDeg, 1e-12);
        Assert.Equal(-84.41375 + (0.5 / 1200), grid.Posts.WestDeg, 1e-12);
        Assert.Equal(513, grid.HeightAt(GeoPoint.FromDegrees(36.6, -84.25))!.Value.Metres, 0.001);
    }

    [Fact]
    public void Its_horizons_are_those_that_small_steps_find()
    {
        var sights = new SightLines(RealGround.Grid, NothingBeyond);
        var random = new Random(84);
        var errors = new List<(double Deg, double DistanceM)>();
        for (var i = 0; i < 120; i++)
        {
            var point = RealGround.Grid.Posts.ToPoint(20 + (random.NextDouble() * 360), 20 + (random.NextDouble() * 300));
            var eye = new Place(point, RealGround.Grid.HeightAt(point)!.Value);
            var azimuth = Azimuth.FromDegrees(random.NextDouble() * 360);
            var (angleDeg, distanceM) = SlowHorizon.Of(RealGround.Grid, eye, azimuth, stepM: 2);
            errors.Add((sights.HorizonOf(eye, azimuth).Altitude!.Value.Degrees - angleDeg, distanceM));
        }
        var far = errors.Where(error => error.DistanceM > 2000).ToList();
        var rms = Math.Sqrt(far.Average(error => error.Deg * error.Deg));
        var all = errors.Select(error => Math.Abs(error.Deg)).Order().ToList();
        TestContext.Current.TestOutputHelper?.WriteLine($"{far.Count} beyond 2 km: rms {rms:0.00000}°; all: p95 {all[(int)(0.95 * all.Count)]:0.00000}°, worst {all[^1]:0.00000}°");
        Assert.True(far.Count > 25, $"only {far.Count} horizons lie beyond 2 km");
        Assert.True(rms <= 0.003, $"rms beyond 2 km is {rms}°");
        Assert.True(all[(int)(0.95 * all.Count)] <= 0.03, $"95th percentile is {all[(int)(0.95 * all.Count)]}°");
    }

    [Theory]
    [InlineData(8849, 0)]
    [InlineData(1500, 4)]
    public void A_horizon_says_whether_ground_past_the_edge_could_stand_above_it(double highestBeyondM, int fewestThatNeedNotCare)
    {
        var model = SightModel.Usual with { HighestBeyond = Length.FromMetres(highestBeyondM) };
        var sights = new SightLines(RealGround.Grid, model);
        var (could, couldNot) = (0, 0);
        foreach (var (column, row) in ((int, int)[])[(219, 297), (200, 170), (60, 60), (340, 280), (214, 318)])
        {
            var point = RealGround.Grid.Posts.ToPoint(column, row);
            var eye = new Place(point, RealGround.Grid.HeightAt(point)!.Value);
            for (var azimuth = 0; azimuth < 360; azimuth += 10)
            {
                var horizon = sights.HorizonOf(eye, Azimuth.FromDegrees(azimuth));
                var edgeM = EdgeM(point, azimuth);
                Assert.Equal(edgeM, horizon.GridEdge!.Value.Metres, 25.0);
                // Such ground right behind the edge; farther out it would stand lower.
                var reachesDeg = double.RadiansToDegrees(Math.Atan((highestBeyondM - eye.Height.Metres) / edgeM) - (edgeM * 0.87 / (2 * 6_371_000.0)));
                if (Math.Abs(reachesDeg - horizon.Altitude!.Value.Degrees) < 0.1) continue;
                Assert.Equal(reachesDeg > horizon.Altitude!.Value.Degrees, horizon.BeyondCouldMatter);
                (could, couldNot) = horizon.BeyondCouldMatter ? (could + 1, couldNot) : (could, couldNot + 1);
            }
        }
        Assert.True(could > 10 && couldNot >= fewestThatNeedNotCare, $"{could} could matter, {couldNot} could not");

        static double EdgeM(GeoPoint from, double azimuthDeg)
        {
            var line = new GroundLine(from, Azimuth.FromDegrees(azimuthDeg));
            var distanceM = 0.0;
            while (RealGround.Grid.Contains(line.At(distanceM + 20))) distanceM += 20;
            return distanceM + 10;
        }
    }
}
