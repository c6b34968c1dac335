using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Lays sets over a light chart: each exposure must have the light of its own bearings at its own instant.</summary>
/// <remarks>An exposure that opens o and closes c seconds after the start, and whose frame has light from a to b, allows
/// starts from a − o to b − c. What all exposures allow is the answer (docs/model.md, section Forecast); no start is tried out.</remarks>
internal static class FitSearch
{
    private static readonly Duration LeastComfort = Duration.FromMinutes(1);

    /// <summary>The sets in the window that leaves them the most room.</summary>
    public static SetFit Fit(LightOfDay light, SetSequence sets)
    {
        var setUp = SetUpTimes.Usual.Before(sets.Parts.Max(part => part.Layout.Rows));
        var fit = light.Windows.Count == 0
            ? SetFit.NoLight
            : light.Windows.Select(window => Fit(light, window, sets)).MaxBy(found => found.Margin)!;
        return fit with { SetUp = setUp };
    }

    private static SetFit Fit(LightOfDay light, LightWindow window, SetSequence sets)
    {
        var track = light.Chart.Track;
        var stretch = new Stretch(track.SecondsAt(window.Start.At), track.SecondsAt(window.End.At));
        var frames = sets.Parts.Select(part => new FrameLight(light.Chart, stretch, part.Layout)).ToList();
        var uncertainty = Duration.FromSeconds(double.Hypot(window.Start.Uncertainty.CombinedS, window.End.Uncertainty.CombinedS));
        var starts = PossibleStarts(track.LengthS, frames, sets).FindAll(start => start.StartS < stretch.EndS && start.EndS + sets.TotalS > stretch.StartS);
        if (starts.Count == 0) return TooLong(light, stretch, frames, sets);
        var best = starts.MaxBy(start => start.LengthS);
        var margin = Duration.FromSeconds(best.LengthS);
        var comfort = Duration.Max(uncertainty, LeastComfort);
        var recommended = StartChoice.Within(best, comfort.TotalSeconds, start => ExposureDrift.FirstToLast(light.Ridge, sets, track.At(start)), light.ToleranceStops);
        var earliest = track.At(best.StartS);
        return new SetFit(margin <= comfort ? Verdict.Tight : Verdict.Fits, margin, earliest, track.At(best.EndS), earliest, null, uncertainty)
        {
            RecommendedStart = track.At(recommended),
            Drift = ExposureDrift.Of(light.Ridge, sets, track.At(recommended), light.ToleranceStops),
        };
    }

    private static List<Stretch> PossibleStarts(double dayS, List<FrameLight> light, SetSequence sets)
    {
        var starts = new List<Stretch> { new(0, dayS) };
        foreach (var shot in sets.Shots)
        {
            var allowed = light[shot.Part].Good(shot.Exposure.Column)
                .Select(good => new Stretch(good.StartS - shot.OpensS, good.EndS - shot.ClosesS)).Where(start => start.LengthS > 0).ToList();
            starts = Stretch.Common(starts, allowed);
            if (starts.Count == 0) break;
        }
        return starts;
    }

    /// <summary>The start that all exposures come nearest to allowing, and by how much they miss.</summary>
    private static SetFit TooLong(LightOfDay light, Stretch window, List<FrameLight> frames, SetSequence sets)
    {
        var (earliest, latest, start) = (double.NegativeInfinity, double.PositiveInfinity, double.NegativeInfinity);
        foreach (var shot in sets.Shots)
        {
            // A frame without any light asks for as much more time as the whole window has.
            var good = frames[shot.Part].Good(shot.Exposure.Column).DefaultIfEmpty(new Stretch(window.EndS, window.StartS))
                .MaxBy(stretch => Math.Min(stretch.EndS, window.EndS) - Math.Max(stretch.StartS, window.StartS));
            earliest = Math.Max(earliest, good.StartS - shot.OpensS);
            latest = Math.Min(latest, good.EndS - shot.ClosesS);
            // Begun late enough for every frame that has light at all, the set fails where that light has gone.
            if (good.StartS < window.EndS && good.EndS > window.StartS) start = Math.Max(start, good.StartS - shot.OpensS);
        }
        var track = light.Chart.Track;
        start = Math.Clamp(double.IsFinite(start) ? start : window.StartS, 0, track.LengthS);
        var failing = sets.Shots.First(shot => !HasLight(frames[shot.Part], shot, start));
        var at = start + failing.OpensS;
        return new SetFit(
            Verdict.TooLong, Duration.FromSeconds(Math.Min(0, latest - earliest)), null, null, track.At(start),
            new FailingFrame(failing.Exposure, sets.BearingOf(failing), track.At(at), frames[failing.Part].ProblemAt(failing.Exposure.Column, at)),
            Duration.Zero)
        {
            Drift = ExposureDrift.Of(light.Ridge, sets, track.At(start), light.ToleranceStops),
        };
    }

    internal static bool HasLight(FrameLight light, PlannedShot shot, double start) => light.Good(shot.Exposure.Column).Any(good =>
        good.StartS <= start + shot.OpensS && start + shot.ClosesS < good.EndS);
}
