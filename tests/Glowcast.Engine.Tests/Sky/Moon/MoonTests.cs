using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Tests.Sky;

public class MoonTests
{
    // Claimed; worst seen 0.0024°; Meeus says 10″, 0.0028°, of his truncation.
    private const double ToleranceDeg = 0.005;

    // Computed with another library and a third as witness, ΔT per row; see Reference/sky/PROVENANCE.md.
    private static readonly Dictionary<string, ReferenceRow> ById =
        ReferenceData.Rows("sky/moon_position.csv").ToDictionary(row => row["id"]);

    private static readonly JsonElement Meeus = ReferenceData.Json("sky/meeus_examples.json").RootElement;

    // 1992-04-12 0h TD.
    private static readonly Instant MeeusInstant = Instant.FromUtc(1992, 4, 12, 0, 0);

    public static TheoryData<string> Rows => [.. ById.Keys];

    [Theory]
    [MemberData(nameof(Rows))]
    public void The_moon_stands_where_the_reference_puts_it(string id)
    {
        var row = ById[id];
        var moon = Moon.At(InstantPattern.General.Parse(row["utc"]).Value, row.Number("delta_t_s"));
        var seen = moon.SeenFrom(Place.FromDegrees(row.Number("lat_deg"), row.Number("lon_east_deg"), row.Number("elev_m")));

        Assert.Equal(row.Number("altitude_airless_topocentric_deg"), seen.AirlessAltitude.Degrees, ToleranceDeg);
        Assert.Equal(0, Turn(row.Number("azimuth_deg"), seen.Azimuth.Degrees) * seen.AirlessAltitude.Cos(), ToleranceDeg);
        Assert.Equal(0, Turn(row.Number("geo_app_ra_deg"), moon.RightAscension.Degrees) * moon.Declination.Cos(), ToleranceDeg);
        Assert.Equal(row.Number("geo_app_dec_deg"), moon.Declination.Degrees, ToleranceDeg);
        Assert.Equal(row.Number("topo_distance_km"), seen.Distance.Kilometres, 30.0);
        Assert.Equal(row.Number("illuminated_fraction_geocentric"), moon.IlluminatedFraction, 0.0002);
        Assert.Equal(row.Number("phase_angle_deg"), moon.PhaseAngle.Degrees, 0.02);
    }

    // Meeus, Astronomical Algorithms, 2nd ed., example 47.a, in meeus_examples.json.
    [Fact]
    public void The_moon_of_Meeus_example_47a()
    {
        var example = Meeus.GetProperty("47a");
        var orbit = MoonOrbit.At(JulianTime.At(MeeusInstant, 0).TerrestrialCenturies);
        var moon = Moon.At(MeeusInstant, deltaTSeconds: 0);

        Assert.Equal(example.GetProperty("longitude_deg").GetDouble(), orbit.LongitudeDeg, 1e-6);
        Assert.Equal(example.GetProperty("latitude_deg").GetDouble(), orbit.LatitudeDeg, 1e-6);
        Assert.Equal(example.GetProperty("distance_km").GetDouble(), orbit.DistanceKm, 0.1);
        Assert.Equal(example.GetProperty("apparent_ra_deg").GetDouble(), moon.RightAscension.Degrees, 2e-5);
        Assert.Equal(example.GetProperty("apparent_dec_deg").GetDouble(), moon.Declination.Degrees, 2e-5);
    }

    // Meeus, example 48.a.
    [Fact]
    public void The_lit_share_of_Meeus_example_48a() => Assert.Equal(
        Meeus.GetProperty("48a").GetProperty("illuminated_fraction").GetDouble(), Moon.At(MeeusInstant, deltaTSeconds: 0).IlluminatedFraction, 1e-4);

    private static double Turn(double from, double to) => Azimuth.FromDegrees(from).TurnTo(Azimuth.FromDegrees(to)).Degrees;
}
