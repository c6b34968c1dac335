using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using NodaTime.Text;

namespace Glowcast.Server.Answers;

/// <summary>Light by weather: chances from model files, told apart from the window itself, which is geometry.</summary>
/// <param name="BeamChance">That the sun's beam reaches the ridge.</param>
/// <param name="BeamLow">Over refraction k from 0 to 0.25, with <paramref name="BeamHigh"/>.</param>
/// <param name="DeckChance">That there is a sea of cloud.</param>
/// <param name="AboveDeckChance">That there is one below the lookout.</param>
/// <param name="WorstBearingDeg">Of the cloud that takes most of the beam, from the lookout; null for none.</param>
/// <param name="Run">When the run began.</param>
/// <param name="StepHours">Between the hours of the files.</param>
/// <param name="UnseenBeyondKm">Where the files end on the beam's way; null where it is followed to the end.</param>
/// <param name="Basis">What the chances rest on, in a sentence.</param>
public sealed record WindowWeatherAnswer(
    double? BeamChance, double? BeamLow, double? BeamHigh, double? DeckChance, double? AboveDeckChance, double? WorstBearingDeg, double? WorstDistanceKm, double? WorstHeightM,
    string Run, double StepHours, double? UnseenBeyondKm, string Basis, IReadOnlyList<BeamMinuteAnswer> Minutes, IReadOnlyList<DeckHourAnswer> Hours, string Caution)
{
    public static WindowWeatherAnswer? Of(WindowWeather? weather, Place lookout)
    {
        if (weather is null) return null;
        var worst = weather.Worst is { } crossing ? CrossingAnswer.Of(crossing, lookout) : null;
        return new WindowWeatherAnswer(
            weather.BeamChance, weather.BeamLow, weather.BeamHigh, weather.DeckChance, weather.AboveDeckChance, worst?.BearingDeg, worst?.DistanceKm, worst?.HeightM,
            InstantPattern.General.Format(weather.Reference), weather.Step.TotalHours, weather.UnseenBeyond?.Kilometres,
            $"By the run of {weather.Reference.InUtc().Hour:00} UTC, one run of one model, kept from {100 * WindowWeather.LeastChance:0} to {100 * WindowWeather.MostChance:0} % until there are {LogisticRefit.FewestOutcomes} outcomes of your own.",
            [.. weather.Minutes.Select(minute => new BeamMinuteAnswer(Moments.Utc(minute.At), minute.Share))],
            [.. weather.Hours.Select(hour => DeckHourAnswer.Of(hour, lookout.Height))], WeatherWords.Caution);
    }
}

/// <param name="Share">Of the direct light, to be expected.</param>
public sealed record BeamMinuteAnswer(string At, double Share);

/// <summary>The deck at one hour; heights are null without one.</summary>
public sealed record DeckHourAnswer(string At, Likelihood Likelihood, double? BaseM, double? TopLowM, double? TopHighM, LookoutVerdict Lookout)
{
    public static DeckHourAnswer Of(ModelProfile hour, Length lookout)
    {
        ArgumentNullException.ThrowIfNull(hour);
        var deck = hour.Diagnosis.Deck;
        return new DeckHourAnswer(Moments.Utc(hour.At), hour.Class, deck?.Base.Metres, deck?.TopLow.Metres, deck?.TopHigh.Metres, hour.Diagnosis.LookoutAt(lookout).Verdict);
    }
}
