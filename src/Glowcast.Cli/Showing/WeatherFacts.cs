using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Showing;

/// <summary>What weather files say of the windows, to be read: always a chance with what it rests on.</summary>
internal static class WeatherFacts
{
    public static void Write(Page page, LightForecast forecast)
    {
        if (forecast.Plan.Conditions.Weather is null) return;
        page.Heading("Light by weather");
        var clock = ForecastPage.ClockOf(forecast);
        foreach (var (i, weather) in forecast.Weather.Index())
        {
            var half = forecast.Windows[i].Half == DayHalf.Morning ? "mornings" : "evenings";
            page.Facts(
                ("window", $"{i + 1}, from {clock.Say(forecast.Windows[i].Start.At)}"),
                ("beam", weather?.BeamChance is { } beam ? $"{InTen(beam, half)}: the sun's beam reaches the ridge" : "the files do not reach it"),
                ("worst cloud", weather?.Worst is { } worst ? $"{(worst.From.Kilometres + worst.To.Kilometres) / 2:0} km sunward, {worst.FromHeight.Metres:0} to {worst.ToHeight.Metres:0} m" : null),
                ("sea of cloud", weather?.DeckChance is { } deck ? $"{InTen(deck, half)}; with the lookout above it {InTen(weather.AboveDeckChance ?? 0, half)}" : null),
                ("files end", weather?.UnseenBeyond is { } end ? $"{end.Kilometres:0} km sunward: cloud beyond is not seen" : null),
                ("by", weather is null ? null : $"the run of {weather.Reference.InUtc().Hour:00} UTC on {Say.Iso(weather.Reference.InUtc().Date)}, hours {weather.Step.TotalHours:0.#} apart"));
        }
        page.Paragraph(WeatherWords.Caution);
    }

    private static string InTen(double chance, string half) =>
        chance <= WindowWeather.LeastChance ? $"at most 1 in 20 {half} like this" : $"about {Math.Round(10 * chance):0} in 10 {half} like this";
}
