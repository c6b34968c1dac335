using System.Xml.Linq;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Sky;
using Glowcast.Field.Words;

namespace Glowcast.Field.Card;

/// <summary>Sun and moon, and what cloud and air are taken to be.</summary>
internal static class SkyBlock
{
    public static XElement Of(LightForecast forecast, Clock clock)
    {
        var conditions = forecast.Plan.Conditions;
        return Markup.Section("sky", "Light and sky", Markup.Facts(
            ("light", forecast.BestWindow is { } window ? Light(window) : null),
            ("ridge", ToneWords.NotSeen(forecast.BestWindow?.Tones?.Ridge)),
            ("sun", Risings(SunEvents.Of(forecast.Day, forecast.Eye).RiseSet, clock)),
            ("moon", Moonlight(forecast, clock)),
            ("deck", conditions.DeckTop is { } top ? $"top at {Say.Metres(top)}, nothing above: assumed" : "none assumed"),
            ("air", $"visibility {conditions.Visibility.Kilometres:0} km, haze β {conditions.AerosolBeta:0.##}: assumed"),
            ("grid", UnknownBeyond(forecast))));
    }

    private static string Light(LightWindow window) =>
        $"{LightWords.Of(window.Direction)}; half-way the sun on {window.SunAzimuth.Degrees:0}°, {window.SunAltitude.Degrees:0.0}° high"
        + (window.Tones?.BlackPoint is { } black ? $"; black point: {ToneWords.Of(black.Verdict)}, {black.Stops:0.0} stops" : "");

    private static string Risings(ThresholdCrossings crossings, Clock clock)
    {
        var events = crossings.Risings.Select(at => (At: at, Text: $"rises {clock.Short(at)}"))
            .Concat(crossings.Settings.Select(at => (At: at, Text: $"sets {clock.Short(at)}"))).OrderBy(risen => risen.At).Select(risen => risen.Text).ToList();
        return events.Count > 0 ? string.Join(", ", events) : crossings.Status == SkyStatus.AlwaysAbove ? "up all day" : "down all day";
    }

    private static string Moonlight(LightForecast forecast, Clock clock)
    {
        var at = forecast.Start ?? forecast.Day.Start + (forecast.Day.Duration / 2);
        var moon = Moon.At(at);
        var seen = moon.SeenFrom(forecast.Eye);
        var place = seen.AirlessAltitude.Degrees > 0 ? $"; at {clock.Short(at)} on {seen.Azimuth.Degrees:0}°, {seen.AirlessAltitude.Degrees:0}° high" : "";
        return $"{Say.Share(moon.IlluminatedFraction)} lit, {Risings(MoonEvents.RiseSet(forecast.Day, forecast.Eye), clock)}{place}";
    }

    private static string? UnknownBeyond(LightForecast forecast) =>
        forecast.BestWindow?.UnknownBeyond is { } edge
            ? $"ends {Say.Distance(edge.Metres)} off towards the sun; ground past it could cast shade"
            : null;
}
