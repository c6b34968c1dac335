using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Light held against what is published about real places.</summary>
public class PublishedSeasonTests
{
    // Rjukan, Norway (59.88° N): by published dates the sun stays behind the southern wall from 28 September to 12 March.
    // Viganella, Italy (46.05° N): from 11 November to 2 February. The walls' angles are those of the noon sun between the two
    // dates of each place; the dates differ among themselves by two days of noon sun (other spots, first or last beam).
    [Theory]
    [InlineData(59.88, 27.4, "2026-09-28", "2027-03-12")]
    [InlineData(46.05, 26.7, "2026-11-11", "2027-02-02")]
    public void A_southern_wall_keeps_the_sun_out_for_the_published_season(double latitude, double wallDeg, string from, string to)
    {
        var place = Place.FromDegrees(latitude, 8.5, 300);
        var grid = WallInTheSouth(place, wallDeg);
        var (first, last) = (NodaTime.Text.LocalDatePattern.Iso.Parse(from).Value, NodaTime.Text.LocalDatePattern.Iso.Parse(to).Value);

        for (var days = -12; days <= 12; days++)
        {
            if (days < -2) Assert.True(HasSun(first.PlusDays(days)), $"{first.PlusDays(days)}");
            if (days > 2) Assert.False(HasSun(first.PlusDays(days)), $"{first.PlusDays(days)}");
            if (days < -2) Assert.False(HasSun(last.PlusDays(days)), $"{last.PlusDays(days)}");
            if (days > 2) Assert.True(HasSun(last.PlusDays(days)), $"{last.PlusDays(days)}");
        }

        bool HasSun(LocalDate date) =>
            DirectLight.On(place, grid, SightModel.Usual, SunTrack.Over(LocalDay.Of(date, place.Point, null))).Centre.Count > 0;
    }

    [Fact]
    public void The_sun_climbs_as_fast_as_the_reference_says()
    {
        // Reference/sky/altitude_rate.csv: 15° · cos φ · sin A an hour at the true horizon, by declination and latitude.
        foreach (var row in ReferenceData.Rows("sky/altitude_rate.csv"))
        {
            var declination = row.Number("sun_declination_deg");
            // Equinox and solstices of 2026 (UTC): 20 March 14:46, 21 June 08:24, 21 December 20:50.
            var instant = declination switch
            {
                0 => Instant.FromUtc(2026, 3, 20, 14, 46),
                > 0 => Instant.FromUtc(2026, 6, 21, 8, 24),
                _ => Instant.FromUtc(2026, 12, 21, 20, 50),
            };
            var (azimuth, perHour) = RisingNear(instant, row.Number("lat_deg"));
            Assert.Equal(row.Number("azimuth_deg"), azimuth.Degrees, 0.12);
            // The formula keeps the declination still; about an equinox it moves by 0.0165° an hour. And the sun falls behind the
            // stars: 15.04° of sidereal turn less 0.04° of its own way, to 0.03 % either side of 15.
            Assert.Equal(row.Number("dh_dt_formula_15cos_lat_sin_az_deg_per_h"), perHour, 0.02);
        }
    }

    /// <summary>The sunrise nearest to an instant, at the longitude where it falls on that instant.</summary>
    private static (Azimuth Azimuth, double DegreesPerHour) RisingNear(Instant instant, double latitude)
    {
        var track = SunTrack.Over(new Interval(instant - Duration.FromMinutes(30), instant + Duration.FromMinutes(30)));
        var middle = track.LengthS / 2;
        // East of the subsolar point the sun sets, west of it it rises: bisect for the longitude where it stands at 0°.
        var (x, y, _) = track.EarthFixedAu(middle);
        var noon = double.RadiansToDegrees(Math.Atan2(y, x));
        var (low, high) = (noon - 180, noon);
        while (high - low > 1e-9)
        {
            var longitude = (low + high) / 2;
            if (AltitudeDeg(longitude, middle) > 0) high = longitude;
            else low = longitude;
        }
        var (east, north, _) = Frame(low).Toward(track.EarthFixedAu(middle));
        return (Azimuth.FromEastNorth(east, north), (AltitudeDeg(low, middle + 30) - AltitudeDeg(low, middle - 30)) * 60);

        ObserverFrame Frame(double longitude) => new(Place.FromDegrees(latitude, longitude));

        double AltitudeDeg(double longitude, double seconds)
        {
            var (e, n, up) = Frame(longitude).Toward(track.EarthFixedAu(seconds));
            return double.RadiansToDegrees(Math.Atan2(up, double.Hypot(e, n)));
        }
    }

    /// <summary>A valley floor with a wall from west to east two kilometres south of a place, as wide as the grid.</summary>
    private static ElevationGrid WallInTheSouth(Place place, double wallDeg)
    {
        const int rows = 101, columns = 801;
        const double rowM = 50;
        const int wallRow = 90;
        var rowStep = rowM / 111_320;
        var columnStep = rowStep / place.Point.Latitude.Cos();
        var heights = new float[rows * columns];
        var wallM = place.Height.Metres + ((wallRow - 50) * rowM * Math.Tan(Angle.FromDegrees(wallDeg).Radians));
        for (var row = 0; row < rows; row++)
            for (var column = 0; column < columns; column++)
                heights[(row * columns) + column] = (float)(row >= wallRow ? wallM : place.Height.Metres);
        return new ElevationGrid(
            new GridPosts(rows, columns, place.Point.LatitudeDeg + (50 * rowStep), place.Point.LongitudeDeg - (400 * columnStep), rowStep, columnStep), heights, "made for a test");
    }
}
