using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Lays a set over a light chart: each exposure must have the light of its own bearings at its own instant.</summary>
/// <remarks>An exposure made o seconds after the start, whose frame has light from a to b, allows starts from a − o to b − o.
/// What all exposures allow is the answer (docs/model.md, section Forecast); no start is tried out.</remarks>
internal static class FitSearch
{
    private static readonly Duration LeastComfort = Duration.FromMinutes(1);

    public static SetFit Fit(LightChart chart, IReadOnlyList<LightWindow> windows, PlannedSet set)
    {
        if (windows.Count == 0) return SetFit.NoLight;
        var light = new FrameLight(chart, set.Layout);
        var starts = PossibleStarts(chart, light, set.Clock);
        if (starts.Count == 0) return TooLong(chart, windows, light, set);
        var best = starts.MaxBy(start => start.LengthS);
        var uncertainty = UncertaintyNear(chart, windows, best);
        var margin = Duration.FromSeconds(best.LengthS);
        var (earliest, latest) = (chart.Track.At(best.StartS), chart.Track.At(best.EndS));
        var verdict = margin <= Duration.Max(uncertainty, LeastComfort) ? Verdict.Tight : Verdict.Fits;
        return new SetFit(verdict, margin, earliest, latest, earliest, null, uncertainty);
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

    /// <summary>In the longest window, the start that all exposures come nearest to allowing.</summary>
    private static SetFit TooLong(LightChart chart, IReadOnlyList<LightWindow> windows, FrameLight light, PlannedSet set)
    {
        var window = windows.MaxBy(window => window.Length)!;
        var (from, to) = (chart.Track.SecondsAt(window.Start.At), chart.Track.SecondsAt(window.End.At));
        var (earliest, latest) = (double.NegativeInfinity, double.PositiveInfinity);
        foreach (var exposure in set.Clock.Exposures)
        {
            var good = light.Good(exposure.Column).DefaultIfEmpty(new Stretch(to, from))
                .MaxBy(stretch => Math.Min(stretch.EndS, to) - Math.Max(stretch.StartS, from));
            earliest = Math.Max(earliest, good.StartS - exposure.Start.TotalSeconds);
            latest = Math.Min(latest, good.EndS - exposure.End.TotalSeconds);
        }
        var start = Math.Max(0, Math.Min(earliest, from));
        var failing = set.Clock.Exposures.First(exposure => !HasLight(light, exposure, start));
        var at = start + failing.Start.TotalSeconds;
        return new SetFit(
            Verdict.TooLong, Duration.FromSeconds(Math.Min(0, latest - earliest)), null, null, chart.Track.At(start),
            new FailingFrame(failing, set.Layout.FrameAt(failing.Row, failing.Column).Bearing, chart.Track.At(at), light.ProblemAt(failing.Column, at)),
            UncertaintyOf(window));
    }

    private static bool HasLight(FrameLight light, Exposure exposure, double start) => light.Good(exposure.Column).Exists(good =>
        good.StartS <= start + exposure.Start.TotalSeconds && start + exposure.End.TotalSeconds < good.EndS);

    private static Duration UncertaintyNear(LightChart chart, IReadOnlyList<LightWindow> windows, Stretch starts)
    {
        var middle = chart.Track.At((starts.StartS + starts.EndS) / 2);
        return UncertaintyOf(windows.MinBy(window => Duration.Max(window.Start.At - middle, middle - window.End.At))!);
    }

    private static Duration UncertaintyOf(LightWindow window) =>
        Duration.FromSeconds(double.Hypot(window.Start.Uncertainty.CombinedS, window.End.Uncertainty.CombinedS));
}
