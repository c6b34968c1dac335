using System.Runtime.Intrinsics;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

public class SunLooksTests
{
    [Fact]
    public void A_sun_in_the_very_zenith_is_left_to_exact_rays()
    {
        var track = SunTrack.Over(new Interval(Instant.FromUtc(2026, 3, 20, 11, 0), Instant.FromUtc(2026, 3, 20, 13, 0)));
        var looks = new SunLooks(track, level: 0);
        var (look, place) = Enumerable.Range(8, looks.Count - 16).SelectMany(look => Beneath(track.EarthFixedAu(look * looks.StepS)).Select(place => (look, place))).First();
        var grid = new ElevationGrid(new GridPosts(21, 21, place.Point.LatitudeDeg + 0.1, place.Point.LongitudeDeg - 0.1, 0.01, 0.01), new float[21 * 21], "made for a test");
        var horizon = new HorizonAround();
        HorizonTable.Of([place], grid, SightModel.Usual, cancel: TestContext.Current.CancellationToken).AllAround(0, horizon);
        // Past north nothing is told without a look.
        var around = new SunAround([.. looks.Around(place, 0).Eights.Select(eight => eight with { FirstDegree = -1 })]);
        var (clearanceRad, side, disc) = (new float[looks.Padded], new sbyte[looks.Padded], new sbyte[looks.Padded]);

        looks.From(new ObserverFrame(place), horizon, around, clearanceRad, side, disc);

        Assert.Equal(0, side[look]);
        Assert.Equal(1, side[look - 1]);
        Assert.Equal(1, side[look + 1]);
    }

    /// <summary>Places from which single precision has the sun neither east nor north.</summary>
    private static IEnumerable<Place> Beneath((double X, double Y, double Z) sun)
    {
        var (latitude, longitude) = (Math.Atan2(sun.Z, double.Hypot(sun.X, sun.Y)), Math.Atan2(sun.Y, sun.X));
        for (var round = 0; round < 6; round++)
        {
            var (east, north, up) = new ObserverFrame(At(latitude, longitude)).Toward(sun);
            (latitude, longitude) = (latitude + (north / up), longitude + (east / up));
        }
        var (x, y, z) = (Vector256.Create((float)sun.X), Vector256.Create((float)sun.Y), Vector256.Create((float)sun.Z));
        return
            from i in Enumerable.Range(-50, 100)
            from j in Enumerable.Range(-50, 100)
            let place = At(latitude + (i * 4e-9), longitude + (j * 4e-9))
            let toward = new ObserverFrame(place).Toward(x, y, z)
            where toward.East[0] == 0 && toward.North[0] == 0
            select place;
    }

    private static Place At(double latitudeRad, double longitudeRad) =>
        new(GeoPoint.FromDegrees(double.RadiansToDegrees(latitudeRad), double.RadiansToDegrees(longitudeRad)), Length.FromMetres(100));
}
