namespace Glowcast.Engine.Sky;

/// <summary>Where the Earth stands as seen from the Sun, referred to the mean equinox of date (Reda &amp; Andreas 2004,
/// section 3.2). Time is in Julian millennia of terrestrial time since J2000.0.</summary>
internal static class EarthOrbit
{
    private const double TableUnit = 1e-8;

    /// <summary>Heliocentric longitude in degrees, in [0, 360).</summary>
    public static double LongitudeDeg(double millennia) =>
        Degrees.Wrap(double.RadiansToDegrees(TableUnit * PeriodicSeries.Polynomial(EarthOrbitTables.Longitude, millennia)));

    /// <summary>Heliocentric latitude in degrees.</summary>
    public static double LatitudeDeg(double millennia) =>
        double.RadiansToDegrees(TableUnit * PeriodicSeries.Polynomial(EarthOrbitTables.Latitude, millennia));

    /// <summary>Distance from the Sun in astronomical units.</summary>
    public static double DistanceAu(double millennia) =>
        TableUnit * PeriodicSeries.Polynomial(EarthOrbitTables.Distance, millennia);

    /// <summary>The sum of the longitude terms that go with one power of time, in 1e-8 rad (the paper's L0 … L5).</summary>
    public static double LongitudeSum(int power, double millennia) => EarthOrbitTables.Longitude[power].At(millennia);

    /// <summary>The sum of the latitude terms that go with one power of time, in 1e-8 rad (the paper's B0, B1).</summary>
    public static double LatitudeSum(int power, double millennia) => EarthOrbitTables.Latitude[power].At(millennia);

    /// <summary>The sum of the distance terms that go with one power of time, in 1e-8 au (the paper's R0 … R4).</summary>
    public static double DistanceSum(int power, double millennia) => EarthOrbitTables.Distance[power].At(millennia);
}
