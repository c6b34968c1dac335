using Glowcast.Engine.Measures;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Field.Magnetism;

/// <summary>The earth's magnetic field by the World Magnetic Model 2025 of NOAA/NCEI and the British Geological Survey.</summary>
/// <remarks>The sum of spherical harmonics to degree 12 (docs/model.md, G1 to G4). It knows the field of the earth's core only:
/// iron ore, volcanic rock, a car or a tripod head beside the compass are not in it.</remarks>
public static class WorldMagneticModel
{
    private const int EpochYear = 2025;
    private const double ReferenceRadiusM = 6_371_200;

    /// <summary>The first day it is valid for.</summary>
    public static LocalDate ValidFrom { get; } = new(EpochYear, 1, 1);

    /// <summary>The first day it is no longer valid for.</summary>
    public static LocalDate ValidUntil { get; } = new(EpochYear + 5, 1, 1);

    public static bool IsValidOn(LocalDate date) => date >= ValidFrom && date < ValidUntil;

    /// <param name="place">Its height is taken for the height above the ellipsoid; 100 m move the declination by under 0.001°
    /// outside the polar regions.</param>
    /// <exception cref="BadInputException">The model does not hold on that date.</exception>
    public static MagneticField At(Place place, LocalDate date)
    {
        if (!IsValidOn(date))
        {
            throw new BadInputException(
                "date",
                $"The World Magnetic Model {EpochYear} holds from {Iso(ValidFrom)} until {Iso(ValidUntil)}; got {Iso(date)}. Give the magnetic declination by hand, from a current chart.");
        }
        var daysInYear = date.Calendar.GetDaysInYear(date.Year);
        return At(place, date.Year + ((date.DayOfYear - 1.0) / daysInYear));
    }

    internal static MagneticField At(Place place, double year)
    {
        var (sinLatitude, cosLatitude) = Math.SinCos(place.Point.Latitude.Radians);
        var normalM = Wgs84.PrimeVerticalRadiusM(sinLatitude);
        var (axisM, poleM) = ((normalM + place.Height.Metres) * cosLatitude, ((normalM * (1 - Wgs84.EccentricitySquared)) + place.Height.Metres) * sinLatitude);
        var geocentricRad = Math.Atan2(poleM, axisM);
        var (north, east, down) = Geocentric(geocentricRad, place.Point.Longitude.Radians, double.Hypot(axisM, poleM), year - EpochYear);
        // From the geocentric vertical to that of the ellipsoid.
        var (sin, cos) = Math.SinCos(geocentricRad - place.Point.Latitude.Radians);
        return new MagneticField((north * cos) - (down * sin), east, (north * sin) + (down * cos));
    }

    private static (double North, double East, double Down) Geocentric(double latitudeRad, double longitudeRad, double radiusM, double years)
    {
        // At the poles east and north lose their meaning; the limit from a millimetre away is as good.
        var colatitudeRad = Math.Clamp((Math.PI / 2) - latitudeRad, 1e-10, Math.PI - 1e-10);
        var functions = new SchmidtFunctions(colatitudeRad, GaussCoefficients.Degree);
        var (north, east, down) = (0.0, 0.0, 0.0);
        for (var n = 1; n <= GaussCoefficients.Degree; n++)
        {
            var fall = Math.Pow(ReferenceRadiusM / radiusM, n + 2);
            for (var m = 0; m <= n; m++)
            {
                var (g, h) = GaussCoefficients.Wmm2025.At(n, m, years);
                var (sin, cos) = Math.SinCos(m * longitudeRad);
                north += fall * ((g * cos) + (h * sin)) * functions.Slope(n, m);
                east += fall * m * ((g * sin) - (h * cos)) * functions.Value(n, m) / Math.Sin(colatitudeRad);
                down -= fall * (n + 1) * ((g * cos) + (h * sin)) * functions.Value(n, m);
            }
        }
        return (north, east, down);
    }

    private static string Iso(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
