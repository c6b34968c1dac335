using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Sky;

/// <summary>When the sun passes an altitude or the meridian of a place, over a mathematical horizon: no terrain, and neither the
/// dip of a high place nor the weather of the day.</summary>
public static class SunEvents
{
    /// <summary>Where the centre of the sun stands, without air, at sunrise and sunset: 34′ of refraction and 16′ of
    /// semidiameter below the horizon, the fixed convention of the almanacs.</summary>
    public static readonly Angle RiseSetAltitude = Angle.FromArcminutes(-50);

    /// <summary>Where the centre of the sun stands when civil twilight begins and ends.</summary>
    public static readonly Angle CivilAltitude = Angle.FromDegrees(-6);

    /// <inheritdoc cref="CivilAltitude"/>
    public static readonly Angle NauticalAltitude = Angle.FromDegrees(-12);

    /// <inheritdoc cref="CivilAltitude"/>
    public static readonly Angle AstronomicalAltitude = Angle.FromDegrees(-18);

    // The sun turns twice a day. Close to a pole two turns can draw together until they vanish; two that are nearer
    // than this step enclose a rise of less than an arcsecond.
    private static readonly Duration Step = Duration.FromMinutes(30);

    /// <summary>Rise, set, transit and the three twilights in a window, normally 24 h from local midnight.</summary>
    /// <param name="deltaTSeconds">ΔT to use; without it, <see cref="DeltaT"/>.</param>
    /// <exception cref="ArgumentException">The window is empty or has no end.</exception>
    public static DayOfSun Of(Interval window, Place place, double? deltaTSeconds = null)
    {
        var altitude = AltitudeDeg(window, place, deltaTSeconds);
        return new DayOfSun(
            Transit(window, place, deltaTSeconds),
            ThresholdCrossings.Of(altitude, RiseSetAltitude.Degrees),
            ThresholdCrossings.Of(altitude, CivilAltitude.Degrees),
            ThresholdCrossings.Of(altitude, NauticalAltitude.Degrees),
            ThresholdCrossings.Of(altitude, AstronomicalAltitude.Degrees));
    }

    /// <summary>When the centre of the sun passes an altitude in a window.</summary>
    /// <inheritdoc cref="Of"/>
    public static ThresholdCrossings Crossings(
        Interval window, Place place, Angle airlessAltitude, double? deltaTSeconds = null) =>
        ThresholdCrossings.Of(AltitudeDeg(window, place, deltaTSeconds), airlessAltitude.Degrees);

    private static TimeCurve AltitudeDeg(Interval window, Place place, double? deltaTSeconds)
    {
        var observer = new ObserverFrame(place);
        return new TimeCurve(window, Step, at => Sun.At(at, deltaTSeconds).SeenFrom(observer).AirlessAltitude.Degrees);
    }

    // On the meridian the sun is neither east nor west; at its upper transit it goes from east to west.
    private static SunTransit? Transit(Interval window, Place place, double? deltaTSeconds)
    {
        var observer = new ObserverFrame(place);
        var west = new TimeCurve(window, Step, at => -observer.Toward(Sun.At(at, deltaTSeconds).EarthFixedAu).East);
        foreach (var crossing in west.Crossings(0).Where(c => c.Upward))
            return new SunTransit(crossing.At, Sun.At(crossing.At, deltaTSeconds).SeenFrom(observer).AirlessAltitude);
        return null;
    }
}
