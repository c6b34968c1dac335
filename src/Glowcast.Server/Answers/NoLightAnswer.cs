using Glowcast.Engine.Forecast;
using Glowcast.Field.Words;

namespace Glowcast.Server.Answers;

/// <summary>Why a day has no window.</summary>
/// <param name="NextStep">What to do about it.</param>
public sealed record NoLightAnswer(NoLightCause Code, string Sentence, string NextStep)
{
    public static NoLightAnswer? Of(LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        return forecast.NoLight is { } cause ? new NoLightAnswer(cause, forecast.WhyNone!, NoLightWords.NextStep(cause)) : null;
    }
}
