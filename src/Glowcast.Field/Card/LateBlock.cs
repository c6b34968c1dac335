using System.Xml.Linq;
using Glowcast.Engine.Forecast;
using Glowcast.Field.Words;
using NodaTime;

namespace Glowcast.Field.Card;

/// <summary>What is left of the sets when they are begun late, each worked out by shifting the start.</summary>
internal static class LateBlock
{
    private static readonly int[] LateMin = [5, 10, 15];

    public static XElement Of(LightForecast forecast, CardTimes times, Clock clock) => Markup.Section(
        "late", "If late", Markup.Table(
            ["late", "start", "lit", "then"],
            from late in LateMin
            let start = ShiftedStart.Of(forecast, times.Start + Duration.FromMinutes(late))
            where start is not null
            select (IReadOnlyList<string>)[$"{late} min", clock.Time(start.Start), $"{start.InLight}/{start.Exposures}", WhatToDo(forecast, start)]));

    private static string WhatToDo(LightForecast forecast, ShiftedStart start)
    {
        var clock = forecast.Set!.Clock;
        if (start.FirstProblem is not { } problem) return start.Drift.IsWithinTolerance ? "shoot all" : $"shoot all; {start.Drift.FirstToLastStops:+0.0;-0.0} stops drift";
        if (start.WholeSets > 0) return $"shoot {(start.WholeSets == 1 ? "one set" : $"{start.WholeSets} sets")}, leave the rest";
        if (start.WholeRows > 0) return $"shoot {SetWords.Row(clock.Order.FirstRow, clock.Rows)} only";
        return forecast.Remedies.FirstOrDefault(remedy => remedy.Fit.LatestStart >= start.Start) is { } remedy
            ? remedy.Change
            : $"frame {problem.Exposure.Frame + 1} fails: {FitWords.Why(problem.Problem)}";
    }
}
