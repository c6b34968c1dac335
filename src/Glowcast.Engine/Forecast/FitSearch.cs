using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Lays a set over a light chart: each exposure must have the light of its own bearings at its own instant.</summary>
/// <remarks>An exposure that opens o and closes c seconds after the start, and whose frame has light from a to b, allows
/// starts from a − o to b − c. What all exposures allow is the answer (docs/model.md, section Forecast); no start is tried out.</remarks>
internal static class FitSearch
{
    private static readonly Duration LeastComfort = Duration.FromMinutes(1);

    /// <summary>The set in the window that leaves it the most room.</summary>
    public static SetFit Fit(LightChart chart, IReadOnlyList<LightWindow> windows, PlannedSet set) => windows.Count == 0
        ? SetFit.NoLight
        : windows.Select(window => Fit(chart, window, set)).MaxBy(fit => fit.Margin)!;

    private static SetFit Fit(LightChart chart, LightWindow window, PlannedSet set)
    {
        var stretch = new Stretch(chart.Track.SecondsAt(window.Start.At), chart.Track.SecondsAt(window.End.At));
        var light = new FrameLight(chart, stretch, set.Layout);
        var uncertainty = Duration.FromSeconds(double.Hypot(window.Start.Uncertainty.CombinedS, window.End.Uncertainty.CombinedS));
        var starts = PossibleStarts(chart, light, set.Clock).FindAll(start => start.StartS < stretch.EndS && start.EndS + set.Clock.Total.TotalSeconds > stretch.StartS);
        if (starts.Count == 0) return TooLong(chart, stretch, light, set) with { Uncertainty = uncertainty };
        var best = starts.MaxBy(start => start.LengthS);
        var margin = Duration.FromSeconds(best.LengthS);
        var verdict = margin <= Duration.Max(uncertainty, LeastComfort) ? Verdict.Tight : Verdict.Fits;
        var earliest = chart.Track.At(best.StartS);
        return new SetFit(verdict, margin, earliest, chart.Track.At(best.EndS), earliest, null, uncertainty);
    }

    private static List<Stretch> PossibleStarts(LightChart chart, FrameLight light, SetClock clock)
    {
        var starts = new List<Stretch> { new(0, chart.Track.LengthS) };
        foreach (var exposure in clock.Exposures)
        {
            var (opens, closes) = (exposure.Start.TotalSeconds, exposure.End.TotalSeconds);
            var allowed = light.Good(exposure.Column)
                .Select(good => new Stretch(good.StartS - opens, good.EndS - closes)).Where(start => start.LengthS > 0).ToList();
            starts = Stretch.Common(starts, allowed);
            if (starts.Count == 0) break;
        }
        return starts;
    }

    /// <summary>The start that all exposures come nearest to allowing, and by how much they miss.</summary>
    private static SetFit TooLong(LightChart chart, Stretch window, FrameLight light, PlannedSet set)
    {
        var (earliest, latest) = (double.NegativeInfinity, double.PositiveInfinity);
        foreach (var exposure in set.Clock.Exposures)
        {
            // A frame without any light asks for as much more time as the whole window has.
            var good = light.Good(exposure.Column).DefaultIfEmpty(new Stretch(window.EndS, window.StartS))
                .MaxBy(stretch => Math.Min(stretch.EndS, window.EndS) - Math.Max(stretch.StartS, window.StartS));
            earliest = Math.Max(earliest, good.StartS - exposure.Start.TotalSeconds);
            latest = Math.Min(latest, good.EndS - exposure.End.TotalSeconds);
        }
        var start = Math.Clamp(Math.Min(earliest, window.StartS), 0, chart.Track.LengthS);
        var failing = set.Clock.Exposures.First(exposure => !HasLight(light, exposure, start));
        var at = start + failing.Start.TotalSeconds;
        return new SetFit(
            Verdict.TooLong, Duration.FromSeconds(Math.Min(0, latest - earliest)), null, null, chart.Track.At(start),
            new FailingFrame(failing, set.Layout.FrameAt(failing.Row, failing.Column).Bearing, chart.Track.At(at), light.ProblemAt(failing.Column, at)),
            Duration.Zero);
    }

    private static bool HasLight(FrameLight light, Exposure exposure, double start) => light.Good(exposure.Column).Any(good =>
        good.StartS <= start + exposure.Start.TotalSeconds && start + exposure.End.TotalSeconds < good.EndS);
}
