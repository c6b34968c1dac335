using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Sky;

/// <summary>From the centre of the Earth to the observer by the angle formulas of Reda &amp; Andreas (2004, sections 3.9 to
/// 3.15): a second route, against which the engine's difference of vectors is checked. Degrees throughout.</summary>
internal sealed record PublishedTopocentre(
    double HourAngleDeg, double HorizontalParallaxDeg, double RightAscensionShiftDeg, double DeclinationDeg, double LatitudeDeg)
{
    public double TopocentricHourAngleDeg => HourAngleDeg - RightAscensionShiftDeg;

    // eq. 41
    public double AirlessAltitudeDeg => Deg(Math.Asin(
        (Sin(LatitudeDeg) * Sin(DeclinationDeg)) + (Cos(LatitudeDeg) * Cos(DeclinationDeg) * Cos(TopocentricHourAngleDeg))));

    // eqs. 45 and 46
    public double AzimuthDeg => 180 + Deg(Math.Atan2(Sin(TopocentricHourAngleDeg),
        (Cos(TopocentricHourAngleDeg) * Sin(LatitudeDeg)) - (Math.Tan(Rad(DeclinationDeg)) * Cos(LatitudeDeg))));

    // eq. 42, the paper's own refraction
    public double RefractionDeg(double pressureMbar, double temperatureC) =>
        pressureMbar / 1010 * (283 / (273 + temperatureC)) * 1.02
        / (60 * Math.Tan(Rad(AirlessAltitudeDeg + (10.3 / (AirlessAltitudeDeg + 5.11)))));

    public static PublishedTopocentre Of(GeocentricSun sun, Place place)
    {
        var (latitude, heightM) = (place.Point.LatitudeDeg, place.Height.Metres);
        var hourAngle = sun.GreenwichSiderealTime.Degrees + place.Point.LongitudeDeg - sun.RightAscension.Degrees; // eq. 32
        hourAngle -= 360 * Math.Floor(hourAngle / 360);
        var parallax = 8.794 / (3600 * sun.DistanceAu); // eq. 33
        var u = Deg(Math.Atan(0.99664719 * Math.Tan(Rad(latitude)))); // eq. 34
        var x = Cos(u) + (heightM / 6378140 * Cos(latitude)); // eq. 35
        var y = (0.99664719 * Sin(u)) + (heightM / 6378140 * Sin(latitude)); // eq. 36
        var declination = sun.Declination.Degrees;
        var below = Cos(declination) - (x * Sin(parallax) * Cos(hourAngle));
        var shift = Deg(Math.Atan2(-x * Sin(parallax) * Sin(hourAngle), below)); // eq. 37
        var topocentric = Deg(Math.Atan2((Sin(declination) - (y * Sin(parallax))) * Cos(shift), below)); // eq. 39
        return new PublishedTopocentre(hourAngle, parallax, shift, topocentric, latitude);
    }

    private static double Rad(double degrees) => double.DegreesToRadians(degrees);

    private static double Deg(double radians) => double.RadiansToDegrees(radians);

    private static double Sin(double degrees) => Math.Sin(Rad(degrees));

    private static double Cos(double degrees) => Math.Cos(Rad(degrees));
}
