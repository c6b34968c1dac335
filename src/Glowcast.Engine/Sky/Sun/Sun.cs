using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Sky;

/// <summary>Where the sun is: the Solar Position Algorithm of Reda &amp; Andreas (Solar Energy 76, 2004, 577; NREL/TP-560-34302,
/// rev. 2008), stated by its authors to be good to 0.0003° from the year −2000 to 6000.</summary>
public static class Sun
{
    /// <summary>The sun as seen from the centre of the Earth.</summary>
    /// <param name="utc">Taken as UT1 (see <see cref="JulianTime"/>).</param>
    /// <param name="deltaTSeconds">ΔT to use; without it, <see cref="DeltaT"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">ΔT is NaN or infinite.</exception>
    public static GeocentricSun At(Instant utc, double? deltaTSeconds = null)
    {
        var time = JulianTime.At(utc, deltaTSeconds);
        return At(time, EarthOrientation.At(time));
    }

    internal static GeocentricSun At(JulianTime time, EarthOrientation earth)
    {
        var millennia = time.TerrestrialMillennia;
        var distanceAu = EarthOrbit.DistanceAu(millennia);
        var latitudeDeg = SunOnEcliptic.LatitudeDeg(EarthOrbit.LatitudeDeg(millennia));
        var longitudeDeg = SunOnEcliptic.ApparentLongitudeDeg(
            SunOnEcliptic.LongitudeDeg(EarthOrbit.LongitudeDeg(millennia)), earth.Nutation, distanceAu);
        var rightAscensionDeg = Ecliptic.RightAscensionDeg(longitudeDeg, latitudeDeg, earth.ObliquityDeg);
        var equationOfTimeMin = SunOnEcliptic.EquationOfTimeMin(
            SunOnEcliptic.MeanLongitudeDeg(millennia), rightAscensionDeg, earth.Nutation, earth.ObliquityDeg);

        return new GeocentricSun(
            Angle.FromDegrees(rightAscensionDeg),
            Angle.FromDegrees(Ecliptic.DeclinationDeg(longitudeDeg, latitudeDeg, earth.ObliquityDeg)),
            distanceAu,
            Angle.FromDegrees(earth.SiderealTimeDeg),
            equationOfTimeMin);
    }
}
