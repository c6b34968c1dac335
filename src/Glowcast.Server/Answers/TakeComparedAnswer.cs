using Glowcast.Engine.Forecast;
using Glowcast.Engine.Take;

namespace Glowcast.Server.Answers;

/// <summary>A take beside the forecast of its day.</summary>
public sealed record TakeComparedAnswer(IReadOnlyList<SetComparedAnswer> Sets, IReadOnlyList<LightSeenAnswer> LightSeen)
{
    public static TakeComparedAnswer Of(SortedTake take, CameraClock clock, LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(take);
        ArgumentNullException.ThrowIfNull(forecast);
        return new TakeComparedAnswer(
            [.. take.Sets.Index().Select(set => (set.Index, Against: SetAgainstForecast.Of(set.Item, clock, forecast)))
                .Where(set => set.Against is not null).Select(set => SetComparedAnswer.Of(set.Index + 1, set.Against!))],
            [.. Engine.Take.LightSeen.In(take, clock).Select(seen => LightSeenAnswer.Of(seen, LightMiss.Of(seen, forecast.Windows)))]);
    }
}

/// <param name="Set">Counted from 1.</param>
/// <param name="InWindow">Its first frame was shot in a window of the forecast.</param>
/// <param name="IsWithin">So was its last, in the same.</param>
public sealed record SetComparedAnswer(
    int Set, string Start, string End, bool InWindow, bool IsWithin, double? DriftStops, double? ForecastDriftStops)
{
    public static SetComparedAnswer Of(int number, SetAgainstForecast set)
    {
        ArgumentNullException.ThrowIfNull(set);
        return new SetComparedAnswer(
            number, Moments.Utc(set.Start), Moments.Utc(set.End), set.Window is not null, set.IsWithin, set.Set.Drift?.FirstToLastStops, set.ForecastDriftStops);
    }
}

/// <param name="Forecast">The nearest edge of a window of that kind; null where none is near.</param>
/// <param name="LateS">Seen less forecast.</param>
public sealed record LightSeenAnswer(LightChange Change, string At, double UncertaintyS, double? Stops, string? Forecast, double? LateS)
{
    public static LightSeenAnswer Of(LightSeen seen, LightMiss? miss)
    {
        ArgumentNullException.ThrowIfNull(seen);
        return new LightSeenAnswer(seen.Change, Moments.Utc(seen.At), seen.Uncertainty.TotalSeconds, seen.Stops, Moments.Utc(miss?.Forecast), miss?.Late.TotalSeconds);
    }
}
