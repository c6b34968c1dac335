using Glowcast.Engine.Forecast;

namespace Glowcast.Cli.Showing;

/// <summary>The pictures that a day offers, a line each.</summary>
internal static class PictureTable
{
    public static void Write(Page page, LightForecast forecast)
    {
        if (forecast.Pictures.Count == 0) return;
        var clock = ForecastPage.ClockOf(forecast);
        var (hasSet, hasUnseen) = (forecast.Pictures.Any(picture => picture.Fit is not null), forecast.Pictures.Any(picture => picture.Window.IsRidgeUnseen));
        page.Heading("Pictures of the day");
        page.Table(
            [clock.Zone is null ? "from, UTC" : "from", "to", "picture", ">exposure", .. hasUnseen ? ["ridge"] : Array.Empty<string>(), .. hasSet ? ["start", "chance"] : Array.Empty<string>()],
            forecast.Pictures.Select<PictureOfDay, IReadOnlyList<string>>(picture =>
            [
                clock.Short(picture.Window.Start.At), clock.Short(picture.Window.End.At), LightWords.Of(picture.Kind),
                picture.Window.Tones?.Exposure is { } exposure ? ToneWords.Shutter(exposure.ShutterS) : "", .. hasUnseen ? [picture.Window.IsRidgeUnseen ? "not seen" : ""] : Array.Empty<string>(),
                .. hasSet ? Fit(picture.Fit!, clock) : [],
            ]));
    }

    private static string[] Fit(SetFit fit, Clock clock) =>
        [fit.IsPossible && fit.ChosenStart is { } start ? clock.Short(start) : "", fit.IsPossible ? FitWords.Chance(fit.Chance) : "does not fit"];
}
