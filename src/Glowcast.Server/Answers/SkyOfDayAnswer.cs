using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Server.Answers;

/// <summary>What else stands in the sky of the day: the moon, and the earth's shadow over the span.</summary>
/// <param name="EarthShadow">With the sun 2°, 3°, 4° and 5° down, morning and evening, where it stands over the span; the
/// antitwilight arch lies on its top.</param>
public sealed record SkyOfDayAnswer(MoonOfDayAnswer Moon, IReadOnlyList<EarthShadowAnswer> EarthShadow)
{
    private static readonly double[] DepressionsDeg = [2, 3, 4, 5];

    public static SkyOfDayAnswer Of(LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        var shadows =
            from depression in DepressionsDeg
            let crossings = SunEvents.Crossings(forecast.Day, forecast.Eye, Angle.FromDegrees(-depression))
            from instant in crossings.Risings.Concat(crossings.Settings)
            orderby instant
            select EarthShadowAnswer.Of(instant, forecast);
        return new SkyOfDayAnswer(MoonOfDayAnswer.Of(forecast), [.. shadows.OfType<EarthShadowAnswer>()]);
    }
}

/// <summary>The top of the earth's shadow over the span at one moment.</summary>
/// <param name="SunDeg">Airless altitude of the sun.</param>
/// <param name="BearingDeg">Where in the span it stands highest.</param>
public sealed record EarthShadowAnswer(string At, double SunDeg, double BearingDeg, double TopDeg, double AtLeastDeg, double AtMostDeg)
{
    public static EarthShadowAnswer? Of(Instant at, LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        var sun = Sun.At(at).SeenFrom(forecast.Eye);
        return Engine.Sky.EarthShadow.Over(forecast.Plan.Span, sun.Azimuth, sun.AirlessAltitude, forecast.Eye.Height) is { } seen
            ? new EarthShadowAnswer(
                Moments.Utc(at), sun.AirlessAltitude.Degrees, seen.Bearing.Degrees, seen.Shadow.Top.Degrees, seen.Shadow.AtLeast.Degrees, seen.Shadow.AtMost.Degrees)
            : null;
    }
}

/// <summary>The moon of the day.</summary>
/// <param name="Rises">UTC; over a level horizon.</param>
/// <param name="IlluminatedFraction">At the middle of the day.</param>
/// <param name="InSpan">From when to when it stands above the horizontal within the span, to a minute: ends in pairs.</param>
/// <param name="GreatestLux">The most it gives level ground in that day, clear; over 0.05 lx a ridge can be exposed by it.</param>
public sealed record MoonOfDayAnswer(
    IReadOnlyList<string> Rises, IReadOnlyList<string> Sets, double IlluminatedFraction, IReadOnlyList<string> InSpan, double GreatestLux)
{
    private static readonly Duration Step = Duration.FromMinutes(1);

    public static MoonOfDayAnswer Of(LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        var (day, eye) = (forecast.Day, forecast.Eye);
        var events = MoonEvents.RiseSet(day, eye);
        var (ends, isIn, greatest) = (new List<string>(), false, 0.0);
        for (var at = day.Start; at <= day.End; at += Step)
        {
            var moon = Moon.At(at);
            var seen = moon.SeenFrom(eye);
            greatest = Math.Max(greatest, MoonLight.HorizontalLux(moon, eye));
            if (isIn == (seen.AirlessAltitude > Angle.Zero && forecast.Plan.Span.Contains(seen.Azimuth))) continue;
            isIn = !isIn;
            ends.Add(Moments.Utc(at));
        }
        if (isIn) ends.Add(Moments.Utc(day.End));
        return new MoonOfDayAnswer(
            [.. events.Risings.Select(Moments.Utc)], [.. events.Settings.Select(Moments.Utc)],
            Moon.At(day.Start + (day.Duration / 2)).IlluminatedFraction, ends, greatest);
    }
}
