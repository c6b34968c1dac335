using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Tests.Sky;

/// <summary>The worked example of NREL/TP-560-34302 (rev. 2008), Table A5.1, quantity by quantity.</summary>
public class SolarPositionAlgorithmTests
{
    private static readonly JsonElement Example = ReferenceData.Json("sky/spa_example.json").RootElement;

    private static readonly JulianTime Time = JulianTime.At(Instant.FromUtc(2003, 10, 17, 19, 30, 30), Input("delta_t_s"));

    private static readonly double T = Time.TerrestrialMillennia;

    private static readonly Nutation Nodding = Nutation.At(Time.TerrestrialCenturies);

    private static readonly double ObliquityDeg = EarthRotation.TrueObliquityDeg(T, Nodding);

    private static readonly double ApparentLongitudeDeg = SunOnEcliptic.ApparentLongitudeDeg(
        SunOnEcliptic.LongitudeDeg(EarthOrbit.LongitudeDeg(T)), Nodding, EarthOrbit.DistanceAu(T));

    private static readonly GeocentricSun Sun = Engine.Sky.Sun.At(Instant.FromUtc(2003, 10, 17, 19, 30, 30), Input("delta_t_s"));

    private static readonly PublishedTopocentre Topocentre = PublishedTopocentre.Of(
        Sun, Place.FromDegrees(Input("latitude_deg"), Input("longitude_deg_east"), Input("elevation_m")));

    /// <summary>Each quantity as the engine computes it, and how closely it must agree with the published digits.</summary>
    private static readonly Dictionary<string, (double Value, double Tolerance)> Quantities = new()
    {
        ["JD"] = (Time.JulianDay, 1e-9),
        ["JDE"] = (Time.JulianEphemerisDay, 1e-9),
        ["JC"] = (Time.UniversalCenturies, 1e-13),
        ["JCE"] = (Time.TerrestrialCenturies, 1e-13),
        ["JME"] = (T, 1e-14),
        ["L0_sum"] = (EarthOrbit.LongitudeSum(0, T), 1e-5),
        ["L1_sum"] = (EarthOrbit.LongitudeSum(1, T), 1e-3),
        ["L2_sum"] = (EarthOrbit.LongitudeSum(2, T), 1e-8),
        ["L3_sum"] = (EarthOrbit.LongitudeSum(3, T), 1e-9),
        ["L4_sum"] = (EarthOrbit.LongitudeSum(4, T), 1e-9),
        ["L5_sum"] = (EarthOrbit.LongitudeSum(5, T), 1e-12),
        ["L_deg"] = (EarthOrbit.LongitudeDeg(T), 1e-9),
        ["B0_sum"] = (EarthOrbit.LatitudeSum(0, T), 1e-8),
        ["B1_sum"] = (EarthOrbit.LatitudeSum(1, T), 1e-9),
        ["B_deg"] = (EarthOrbit.LatitudeDeg(T), 1e-14),
        ["R0_sum"] = (EarthOrbit.DistanceSum(0, T), 1e-5),
        ["R1_sum"] = (EarthOrbit.DistanceSum(1, T), 1e-7),
        ["R2_sum"] = (EarthOrbit.DistanceSum(2, T), 1e-8),
        ["R3_sum"] = (EarthOrbit.DistanceSum(3, T), 1e-9),
        ["R4_sum"] = (EarthOrbit.DistanceSum(4, T), 1e-10),
        ["R_au"] = (EarthOrbit.DistanceAu(T), 1e-12),
        ["theta_geocentric_longitude_deg"] = (SunOnEcliptic.LongitudeDeg(EarthOrbit.LongitudeDeg(T)), 1e-9),
        ["beta_deg"] = (SunOnEcliptic.LatitudeDeg(EarthOrbit.LatitudeDeg(T)), 1e-14),
        ["X0_deg"] = (Nutation.MoonElongationDeg(Time.TerrestrialCenturies), 1e-8),
        ["X1_deg"] = (Nutation.SunAnomalyDeg(Time.TerrestrialCenturies), 1e-9),
        ["X2_deg"] = (Nutation.MoonAnomalyDeg(Time.TerrestrialCenturies), 1e-8),
        ["X3_deg"] = (Nutation.MoonLatitudeArgumentDeg(Time.TerrestrialCenturies), 1e-8),
        ["X4_deg"] = (Nutation.MoonNodeDeg(Time.TerrestrialCenturies), 1e-9),
        ["delta_psi_deg"] = (Nodding.LongitudeDeg, 1e-12),
        ["delta_epsilon_deg"] = (Nodding.ObliquityDeg, 1e-12),
        ["epsilon0_arcsec"] = (EarthRotation.MeanObliquityArcsec(T), 1e-9),
        ["epsilon_deg"] = (ObliquityDeg, 1e-12),
        ["delta_tau_deg"] = (SunOnEcliptic.AberrationDeg(EarthOrbit.DistanceAu(T)), 1e-14),
        ["lambda_apparent_deg"] = (ApparentLongitudeDeg, 1e-9),
        ["nu0_deg"] = (EarthRotation.MeanSiderealTimeDeg(Time), 2e-7), // the published digits carry the grain of a Julian day, 4e-10 d
        ["nu_deg"] = (Sun.GreenwichSiderealTime.Degrees, 2e-7),
        ["alpha_deg"] = (Sun.RightAscension.Degrees, 1e-9),
        ["delta_deg"] = (Sun.Declination.Degrees, 1e-9),
        ["H_deg"] = (Topocentre.HourAngleDeg, 2e-7),
        ["xi_deg"] = (Topocentre.HorizontalParallaxDeg, 1e-12),
        ["delta_alpha_deg"] = (Topocentre.RightAscensionShiftDeg, 1e-11),
        ["alpha_prime_deg"] = (Sun.RightAscension.Degrees + Topocentre.RightAscensionShiftDeg, 1e-9),
        ["delta_prime_deg"] = (Topocentre.DeclinationDeg, 1e-9),
        ["H_prime_deg"] = (Topocentre.TopocentricHourAngleDeg, 2e-7),
        ["e0_deg"] = (Topocentre.AirlessAltitudeDeg, 2e-7),
        ["delta_e_deg"] = (Topocentre.RefractionDeg(Input("pressure_mbar"), Input("temperature_C")), 1e-9),
        ["e_deg"] = (Topocentre.AirlessAltitudeDeg + Topocentre.RefractionDeg(Input("pressure_mbar"), Input("temperature_C")), 2e-7),
    };

    public static TheoryData<string> PublishedQuantities => [.. Example.GetProperty("intermediate").EnumerateObject().Select(q => q.Name)];

    [Theory]
    [MemberData(nameof(PublishedQuantities))]
    public void Every_intermediate_value_is_the_published_one(string name)
    {
        var (value, tolerance) = Quantities[name];
        Assert.Equal(Example.GetProperty("intermediate").GetProperty(name).GetDouble(), value, tolerance);
    }

    [Fact]
    public void The_azimuth_is_the_published_one() =>
        Assert.Equal(Example.GetProperty("high_digit_outputs").GetProperty("azimuth_deg").GetDouble(), Topocentre.AzimuthDeg, 3e-7);

    [Fact]
    public void The_equation_of_time_is_the_published_one() =>
        // The last printed digits depend on how the mean longitude is rounded; see the caution in the file.
        Assert.Equal(Example.GetProperty("printed_outputs").GetProperty("equation_of_time_min").GetDouble(), Sun.EquationOfTimeMin, 1e-5);

    private static double Input(string name) => Example.GetProperty("inputs").GetProperty(name).GetDouble();
}
