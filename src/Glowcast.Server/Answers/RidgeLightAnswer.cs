using Glowcast.Engine.Light;
using Glowcast.Engine.Sky;

namespace Glowcast.Server.Answers;

/// <summary>The light on the lit ridge through a window.</summary>
/// <param name="StopsPerMinute">The mean from start to end; negative where the ridge darkens.</param>
public sealed record RidgeLightAnswer(RidgeMomentAnswer Start, RidgeMomentAnswer Middle, RidgeMomentAnswer End, StopsPerMinuteAnswer StopsPerMinute)
{
    public static RidgeLightAnswer Of(WindowBrightness window)
    {
        ArgumentNullException.ThrowIfNull(window);
        return new RidgeLightAnswer(
            RidgeMomentAnswer.Of(window.Start), RidgeMomentAnswer.Of(window.Middle), RidgeMomentAnswer.Of(window.End), StopsPerMinuteAnswer.Of(window.Rate));
    }
}

/// <summary>The light on the lit ridge at one moment.</summary>
/// <param name="DirectLux">The sun's beam on ground that faces it.</param>
/// <param name="DiffuseLux">The clear sky on open level ground.</param>
/// <param name="X">CIE 1931, of the beam.</param>
/// <param name="Y">CIE 1931, of the beam.</param>
/// <param name="CctK">Correlated colour temperature; null where the beam is redder than 600 K.</param>
/// <param name="UncertaintyStops">Of the brightness, one standard deviation: haze and the formula for the sky.</param>
/// <param name="Duv">Distance from the Planckian locus, positive on the green side; beyond ±0.05 the temperature means nothing.</param>
public sealed record RidgeMomentAnswer(
    string At, double DirectLux, double DiffuseLux, double X, double Y, double? CctK, double? Duv, StopsPerMinuteAnswer StopsPerMinute,
    double UncertaintyStops)
{
    public static RidgeMomentAnswer Of(RidgeMoment moment)
    {
        var (light, colour) = (moment.Light, moment.Light.DirectColour.Correlated());
        return new RidgeMomentAnswer(
            Moments.Utc(moment.At), light.DirectLux, light.DiffuseLux, light.DirectColour.X, light.DirectColour.Y, colour?.Kelvin, colour?.Duv,
            StopsPerMinuteAnswer.Of(moment.Rate), moment.UncertaintyStops);
    }
}

/// <summary>How fast the lit ridge brightens, by the sun's beam, the sky, and both; negative where it darkens.</summary>
public sealed record StopsPerMinuteAnswer(double Direct, double Diffuse, double Total)
{
    public static StopsPerMinuteAnswer Of(BrightnessRate rate) => new(rate.Direct, rate.Diffuse, rate.Total);
}
