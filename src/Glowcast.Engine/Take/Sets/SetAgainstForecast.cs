using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>A set as it was shot, beside the forecast for its day.</summary>
/// <param name="Start">When its first frame was shot.</param>
/// <param name="Window">The window its first frame was shot in; null for none.</param>
/// <param name="IsWithin">All of it was shot in that window.</param>
/// <param name="ForecastDriftStops">Of the lit ridge, from its first frame to its last; null without a chart.</param>
public sealed record SetAgainstForecast(
    FoundSet Set, Instant Start, Instant End, LightWindow? Window, bool IsWithin, double? ForecastDriftStops)
{
    /// <returns>Null where the clock does not tell when the set was shot, or the forecast has no set.</returns>
    public static SetAgainstForecast? Of(FoundSet set, CameraClock clock, LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(set);
        ArgumentNullException.ThrowIfNull(clock);
        ArgumentNullException.ThrowIfNull(forecast);
        if (clock.At(set.First) is not { } start || forecast.Set is null) return null;
        var end = start + set.Pace.FirstToLast;
        var window = forecast.Windows.FirstOrDefault(window => window.Start.At <= start && start < window.End.At);
        return new SetAgainstForecast(
            set, start, end, window, window is not null && end < window.End.At, forecast.Brightness?.StopsFrom(start, end));
    }

    /// <summary>By how much the brightness drifted more than forecast [stops]; null where either is unknown.</summary>
    public double? DriftBeyondForecastStops => Set.Drift?.FirstToLastStops - ForecastDriftStops;
}
