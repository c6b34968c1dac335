using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Sky view against closed forms and against 720 azimuths on two real tiles (Reference/picture, C).</summary>
public class SkyViewTests
{
    private const int Fine = 120;

    [Fact]
    public void Planes_valleys_pits_bowls_and_walls_have_the_sky_of_their_closed_forms()
    {
        foreach (var row in ReferenceData.Rows("picture/skyview_closed_forms.csv"))
        {
            var (slope, second) = (row.Number("S_deg"), row.Has("second_deg") ? row.Number("second_deg") : 0);
            var (normal, horizon) = Case(row["case"], slope, second);
            // Walls and valleys end in a kink at right angles to them, which even steps of azimuth round off a little.
            Assert.Equal(row.Number("view_closed"), SkyView.Share(normal, Horizon(Fine, horizon)), 3e-4);
        }
    }

    [FactNeeds<SharedTiles>]
    public void On_real_ground_two_dozen_directions_come_near_to_many()
    {
        var rows = ReferenceData.Rows("picture/skyview_points.csv").ToList();
        var errors = new List<double>();
        foreach (var tile in rows.GroupBy(row => row["tile"]))
        {
            var grid = SharedData.Read(tile.Key);
            var points = tile.ToList();
            var places = points.ConvertAll(row => Place.FromDegrees(row.Number("lat_deg"), row.Number("lon_deg"), row.Number("height_m")));
            var normals = points.ConvertAll(row => (GroundNormal?)Facing(row.Number("slope_horn_deg"), row.Number("aspect_grid_deg")));
            var views = SkyView.Of(places, normals, grid, SightModel.Usual with { BeyondGrid = null }, cancel: TestContext.Current.CancellationToken);
            errors.AddRange(points.Select((row, i) => views[i] - row.Number("view_inclined")));
        }
        Assert.Equal(60, errors.Count);
        Assert.InRange(errors.Max(Math.Abs), 0, 0.003);
        Assert.InRange(Math.Sqrt(errors.Average(error => error * error)), 0, 0.001);
    }

    private static (GroundNormal Normal, Func<double, double> HorizonRad) Case(string name, double slopeDeg, double secondDeg)
    {
        var (slope, second) = (Angle.FromDegrees(slopeDeg), Angle.FromDegrees(secondDeg));
        // The slope faces north; a valley's other side rises to the north.
        return name switch
        {
            _ when name.StartsWith("inclined plane", StringComparison.Ordinal) => (Facing(slopeDeg, 0), _ => 0),
            _ when name.StartsWith("bottom of a V", StringComparison.Ordinal) => (GroundNormal.Level, azimuth => Side(slope.Tan(), slope.Tan(), azimuth)),
            _ when name.StartsWith("on one side", StringComparison.Ordinal) => (Facing(slopeDeg, 0), azimuth => Side(slope.Tan(), slope.Tan(), azimuth)),
            _ when name.StartsWith("bottom of a conical", StringComparison.Ordinal) => (GroundNormal.Level, _ => slope.Radians),
            _ when name.StartsWith("anywhere in a spherical", StringComparison.Ordinal) => (GroundNormal.Level, _ => slope.Radians / 2),
            _ when name.StartsWith("flat ground", StringComparison.Ordinal) => (GroundNormal.Level, azimuth => Side(slope.Tan(), 0, azimuth)),
            _ => (GroundNormal.Level, azimuth => Side(slope.Tan(), second.Tan(), azimuth)),
        };
    }

    // Endless straight edges to the north and to the south.
    private static double Side(double northTan, double southTan, double azimuth) => Math.Atan(Math.Abs(Math.Cos(azimuth)) * (Math.Cos(azimuth) > 0 ? northTan : southTan));

    private static GroundNormal Facing(double slopeDeg, double aspectDeg)
    {
        var (slope, aspect) = (Angle.FromDegrees(slopeDeg), Angle.FromDegrees(aspectDeg));
        return GroundNormal.OfRise(-slope.Tan() * aspect.Sin(), -slope.Tan() * aspect.Cos());
    }

    private static float[] Horizon(int count, Func<double, double> horizonRad) => [.. Enumerable.Range(0, count).Select(i => (float)horizonRad(Math.Tau * i / count))];
}
