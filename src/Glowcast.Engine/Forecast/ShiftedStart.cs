using Glowcast.Engine.Light;
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
    /// <returns>Null where the forecast has no set, or its day no window.</returns>
    public static ShiftedStart? Of(LightForecast forecast, Instant start)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        if (forecast is not { Set: { } set, Chart: { } chart, Brightness: { } brightness, BestWindow: { } window }) return null;
        var (track, sets) = (chart.Track, new SetSequence(set));
        var light = new FrameLight(chart, new Stretch(track.SecondsAt(window.Start.At), track.SecondsAt(window.End.At)), set.Layout);
        var startS = track.SecondsAt(start);
        var missing = sets.Shots.Where(shot => !FitSearch.HasLight(light, shot, startS)).ToList();
        return new ShiftedStart(
            start, sets.Shots.Count, sets.Shots.Count - missing.Count,
            sets.Sets.TakeWhile(shots => !shots.Any(missing.Contains)).Count(),
            sets.Sets[0].GroupBy(shot => shot.Exposure.Row).TakeWhile(row => !row.Any(missing.Contains)).Count(),
            missing.Count > 0 ? Failing(missing[0]) : null,
            ExposureDrift.Of(brightness, sets, start, forecast.Plan.ExposureDriftStops));

        FailingFrame Failing(PlannedShot shot) => new(
            shot.Exposure, sets.BearingOf(shot), start + Duration.FromSeconds(shot.OpensS), light.ProblemAt(shot.Exposure.Column, startS + shot.OpensS));
    }
}
