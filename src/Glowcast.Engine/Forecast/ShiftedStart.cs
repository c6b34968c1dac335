using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>The set begun at some moment of one's own: what of it has its light.</summary>
/// <remarks>docs/model.md, F14. Every exposure is held against the light of its own bearings at its shifted instant.</remarks>
/// <param name="Start">Of the marker frame of the first set.</param>
/// <param name="Exposures">Of all sets.</param>
/// <param name="InLight">How many of them have their light.</param>
/// <param name="WholeSets">How many sets, from the first on, have all of it.</param>
/// <param name="WholeRows">How many rows of the first set, in the order of shooting, have all of it.</param>
/// <param name="FirstProblem">Null where all exposures have their light.</param>
/// <param name="Drift">Of the brightness, from this start.</param>
public sealed record ShiftedStart(
    Instant Start, int Exposures, int InLight, int WholeSets, int WholeRows, FailingFrame? FirstProblem, ExposureDrift Drift)
{
    /// <summary>The chance that all exposures have their light.</summary>
    public double Chance { get; init; }

    /// <returns>Null where the forecast has no set, or its day no window.</returns>
    public static ShiftedStart? Of(LightForecast forecast, Instant start)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        if (forecast is not { Brightness: { } brightness, Fit.Judged: { Sets: var sets, Judge: var judge, Day: var day } found }) return null;
        var judged = found.At(start);
        var missing = judge.MissedFrom(day.SecondsAt(start)).ToHashSet();
        return new ShiftedStart(
            start, sets.Shots.Count, judged.InLight,
            sets.Sets.TakeWhile(shots => !shots.Any(missing.Contains)).Count(),
            sets.Sets[0].GroupBy(shot => shot.Exposure.Row).TakeWhile(row => !row.Any(missing.Contains)).Count(),
            judged.FirstProblem, ExposureDrift.Of(brightness, sets, start, forecast.Plan.ExposureDriftStops))
        {
            Chance = judged.Chance,
        };
    }
}
