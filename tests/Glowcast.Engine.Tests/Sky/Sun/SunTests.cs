using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Tests.Sky;

public class SunTests
{
    // Claimed; worst seen 0.00020°, the spread of the independent codes themselves.
    private const double ToleranceDeg = 0.0005;

    // The truncated series of the distance; 3e-6 of the distance is nothing to the disc or to parallax.
    private const double DistanceToleranceAu = 3e-6;

    // Computed with ERFA (IAU 2006/2000A); see Reference/sky/PROVENANCE.md. Each row brings its own ΔT.
    public static TheoryData<string> Rows => [.. ReferenceData.Rows("sky/solar_position.csv").Select(row => row["id"])];

    private static readonly Dictionary<string, ReferenceRow> ById =
        ReferenceData.Rows("sky/solar_position.csv").ToDictionary(row => row["id"]);

    [Theory]
    [MemberData(nameof(Rows))]
    public void The_sun_stands_where_the_reference_puts_it(string id)
    {
        var row = ById[id];
        var sun = Geocentric(row);
        var seen = sun.SeenFrom(PlaceOf(row));

        Assert.Equal(row.Number("altitude_airless_topocentric_deg"), seen.AirlessAltitude.Degrees, ToleranceDeg);
        var azimuthError = Azimuth.FromDegrees(row.Number("azimuth_north_east_deg")).TurnTo(seen.Azimuth).Degrees;
        Assert.Equal(0, azimuthError * seen.AirlessAltitude.Cos(), ToleranceDeg);
        var rightAscensionError = Azimuth.FromDegrees(row.Number("geo_app_ra_deg")).TurnTo(Azimuth.FromDegrees(sun.RightAscension.Degrees)).Degrees;
        Assert.Equal(0, rightAscensionError * sun.Declination.Cos(), ToleranceDeg);
        Assert.Equal(row.Number("geo_app_dec_deg"), sun.Declination.Degrees, ToleranceDeg);
        Assert.Equal(row.Number("geo_distance_au"), sun.DistanceAu, DistanceToleranceAu);
        Assert.Equal(row.Number("topo_distance_au"), seen.DistanceAu, DistanceToleranceAu);
        Assert.Equal(row.Number("semidiameter_deg"), seen.Semidiameter.Degrees, 2e-6);
        // The reference reckons the mean sun from universal time, the published formula from terrestrial time.
        Assert.Equal(row.Number("equation_of_time_min"), sun.EquationOfTimeMin, 0.005);
    }

    [Theory]
    [MemberData(nameof(Rows))]
    public void The_difference_of_vectors_agrees_with_the_published_angle_formulas(string id)
    {
        var row = ById[id];
        var sun = Geocentric(row);
        var seen = sun.SeenFrom(PlaceOf(row));
        var published = PublishedTopocentre.Of(sun, PlaceOf(row));

        Assert.Equal(published.AirlessAltitudeDeg, seen.AirlessAltitude.Degrees, 1e-6);
        var azimuthError = Azimuth.FromDegrees(published.AzimuthDeg).TurnTo(seen.Azimuth).Degrees;
        Assert.Equal(0, azimuthError * seen.AirlessAltitude.Cos(), 1e-6);
    }

    // Meeus, Astronomical Algorithms, 2nd ed., examples 25.b and 28.a (1992-10-13 0h TD), in meeus_examples.json.
    [Fact]
    public void The_sun_of_Meeus_example_25b()
    {
        var examples = ReferenceData.Json("sky/meeus_examples.json").RootElement;
        var example = examples.GetProperty("25b");
        var sun = Sun.At(Instant.FromUtc(1992, 10, 13, 0, 0), deltaTSeconds: 0);

        Assert.Equal(example.GetProperty("apparent_ra_deg").GetDouble(), sun.RightAscension.Degrees, 1 / 3600.0);
        Assert.Equal(example.GetProperty("apparent_dec_deg").GetDouble(), sun.Declination.Degrees, 1 / 3600.0);
        Assert.Equal(example.GetProperty("R_au").GetDouble(), sun.DistanceAu, 2e-7);
        Assert.Equal(examples.GetProperty("28a").GetProperty("E_seconds").GetDouble(), sun.EquationOfTimeMin * 60, 0.1);
    }

    [Fact]
    public void The_earth_fixed_vector_points_at_the_place_under_the_sun()
    {
        var sun = Sun.At(Instant.FromUtc(2026, 2, 14, 11, 40));
        var (x, y, z) = sun.EarthFixedAu;
        var under = Place.FromDegrees(
            double.RadiansToDegrees(Math.Atan2(z, Math.Sqrt((x * x) + (y * y)))), double.RadiansToDegrees(Math.Atan2(y, x)));

        Assert.Equal(sun.DistanceAu, Math.Sqrt((x * x) + (y * y) + (z * z)), 1e-12);
        Assert.Equal(90, sun.SeenFrom(under).AirlessAltitude.Degrees, 1e-4); // parallax: the vertical is not the radius
    }

    private static GeocentricSun Geocentric(ReferenceRow row) =>
        Sun.At(InstantPattern.General.Parse(row["utc"]).Value, row.Number("delta_t_s"));

    private static Place PlaceOf(ReferenceRow row) =>
        Place.FromDegrees(row.Number("lat_deg"), row.Number("lon_east_deg"), row.Number("elev_m"));
}
