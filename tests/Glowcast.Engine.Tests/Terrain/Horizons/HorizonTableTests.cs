using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Light;
using NodaTime;

namespace Glowcast.Engine.Tests.Terrain;

public class HorizonTableTests
{
    private static readonly Place[] Points = [Valley.Floor, Valley.WestCrest, Valley.Lookout];

    private static readonly Lazy<HorizonTable> Table = new(() => HorizonTable.Of(Points, Valley.Grid, SightModel.Usual));

    [Fact]
    public void Horizons_that_the_sun_can_meet_are_those_of_exact_rays()
    {
        var sights = new SightLines(Valley.Grid, SightModel.Usual);
        var compared = 0;
        for (var i = 0; i < Points.Length; i++)
        {
            for (var azimuth = 60.0; azimuth <= 300; azimuth++)
            {
                var apparent = sights.HorizonOf(Points[i], Azimuth.FromDegrees(azimuth)).Altitude!.Value;
                var airless = Refraction.ToAirless(apparent, Points[i].Height);
                var (lowest, highest) = SunOn(azimuth);
                var kept = double.RadiansToDegrees(Table.Value.AirlessRadAt(i, double.DegreesToRadians(azimuth)));
                if (airless.Degrees < lowest) Assert.True(kept < lowest, $"{kept} at {azimuth}");
                else if (airless.Degrees > highest) Assert.True(kept > highest, $"{kept} at {azimuth}");
                else
                {
                    Assert.Equal(airless.Degrees, kept, 0.003);
                    compared++;
                }
            }
        }
        Assert.True(compared > 150, $"{compared} compared");
    }

    [Fact]
    public void Beneath_a_cliff_steeper_than_a_table_can_tell_the_horizon_is_high()
    {
        // Posts every metre, and a wall of 30 m from west to east, two metres south of the point.
        var heights = Enumerable.Range(0, 101 * 101).Select(i => i / 101 < 50 ? 100f : 130f).ToArray();
        var posts = new GridPosts(101, 101, 5_200_000, 500_000, 1, 1, MapProjection.Utm(32, isNorth: true, Spheroid.Wgs84), "WGS 84 / UTM zone 32N");
        var point = new Place(posts.ToPoint(50, 47.7), Length.FromMetres(100));
        var table = HorizonTable.Of([point], new ElevationGrid(posts, heights, "made for a test"), SightModel.Usual, cancel: TestContext.Current.CancellationToken);
        // The last whole units of 0.0025° in 16 bits.
        Assert.Equal(81.9175, double.RadiansToDegrees(table.AirlessRadAt(0, Math.PI)), 4);
    }

    [Fact]
    public void No_light_comes_from_where_the_sun_never_stands() =>
        Assert.Equal(Math.PI / 2, Table.Value.AirlessRadAt(0, 0));

    [Theory]
    [InlineData(70)]
    [InlineData(44)]
    [InlineData(10)]
    [InlineData(0)]
    [InlineData(-23)]
    [InlineData(-35)]
    public void On_every_day_of_a_year_the_sun_keeps_within_its_reach(double latitudeDeg)
    {
        var place = Place.FromDegrees(latitudeDeg, 20, 0);
        var belt = double.DegreesToRadians(latitudeDeg);
        for (var hour = 0; hour < 366 * 24; hour += 5)
        {
            var sun = Sun.At(Instant.FromUtc(2026, 1, 1, 0, 7) + Duration.FromHours(hour)).SeenFrom(place);
            if (sun.AirlessAltitude.Degrees < -6) continue;
            var reach = SunReach.Towards(sun.Azimuth.Radians, belt - 0.01, belt + 0.01);
            Assert.NotNull(reach);
            Assert.InRange(sun.AirlessAltitude.Radians, reach.Value.LowestRad, reach.Value.HighestRad);
        }
    }

    /// <summary>The altitudes between which the sun crosses an azimuth from one solstice to the other.</summary>
    private static (double LowestDeg, double HighestDeg) SunOn(double azimuthDeg)
    {
        var altitudes = SunOfThreeDays.Value.Where(sun => Math.Abs(sun.Azimuth.TurnTo(Azimuth.FromDegrees(azimuthDeg)).Degrees) < 0.6).Select(sun => sun.AltitudeDeg).ToList();
        return (altitudes.Min(), altitudes.Max());
    }

    private static readonly Lazy<List<(Azimuth Azimuth, double AltitudeDeg)>> SunOfThreeDays = new(() =>
    [
        .. from day in (LocalDate[])[new(2026, 6, 21), new(2026, 9, 23), new(2026, 12, 21)]
           from minute in Enumerable.Range(0, 12 * 60)
           let sun = Sun.At(day.AtMidnight().InUtc().ToInstant() + Duration.FromMinutes(2 * minute)).SeenFrom(Valley.Floor)
           where sun.AirlessAltitude.Degrees > -3
           select (sun.Azimuth, sun.AirlessAltitude.Degrees),
    ]);
}
