using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Sky;

/// <summary>When the moon rises and sets over a mathematical horizon.</summary>
public static class MoonEvents
{
    /// <summary>What the air lifts at the horizon, by the convention of the almanacs.</summary>
    public static readonly Angle HorizonRefraction = Angle.FromArcminutes(34);

    private static readonly Duration Step = Duration.FromMinutes(30);

    /// <summary>When the upper limb, with the moon's true semidiameter and parallax, passes the horizon. About one day in
    /// thirty has no rising, and one no setting.</summary>
    /// <param name="deltaTSeconds">ΔT to use; without it, <see cref="DeltaT"/>.</param>
    /// <exception cref="ArgumentException">The window is empty or has no end.</exception>
    public static ThresholdCrossings RiseSet(Interval window, Place place, double? deltaTSeconds = null)
    {
        var observer = new ObserverFrame(place);
        var upperLimbDeg = new TimeCurve(window, Step, at =>
        {
            var moon = Moon.At(at, deltaTSeconds).SeenFrom(observer);
            return (moon.AirlessAltitude + moon.Semidiameter).Degrees;
        });
        return ThresholdCrossings.Of(upperLimbDeg, -HorizonRefraction.Degrees);
    }
}
