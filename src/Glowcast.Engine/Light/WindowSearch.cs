using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>Finds the windows of a light chart (docs/model.md, section Light).</summary>
public static class WindowSearch
{
    /// <summary>Shorter ones are of no use to anybody.</summary>
    private const double ShortestS = 1;

    /// <summary>Over a shorter gap nobody packs up.</summary>
    private static readonly Duration LongestBreak = Duration.FromMinutes(30);

    /// <summary>The windows of the day in order of time; none is an ordinary answer.</summary>
    public static IReadOnlyList<LightWindow> Windows(LightChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var windows = Stretches(chart).ConvertAll(stretch => Describe(chart, stretch)).FindAll(IsKnown);
        for (var i = 1; i < windows.Count; i++)
        {
            var gap = windows[i].Start.At - windows[i - 1].End.At;
            if (gap < LongestBreak) windows[i] = windows[i] with { BreakBefore = new WindowBreak(gap, windows[i - 1].End.Cause) };
        }
        return windows;
    }

    /// <summary>When enough columns of ridge are lit and little enough of the valley is.</summary>
    internal static List<Stretch> Stretches(LightChart chart)
    {
        var ridge = chart.Ridge.LitEnough(chart.Scene.Thresholds);
        var both = chart.ValleyShaded is { } shaded ? Stretch.Common(ridge, shaded) : ridge;
        return both.FindAll(stretch => stretch.LengthS >= ShortestS);
    }

    /// <summary>Light that is shorter than its ends are known to may as well not be there.</summary>
    internal static bool IsKnown(LightWindow window) => Math.Max(window.Start.Uncertainty.CombinedS, window.End.Uncertainty.CombinedS) <= window.Length.TotalSeconds;

    private static LightWindow Describe(LightChart chart, Stretch stretch)
    {
        var middleS = (stretch.StartS + stretch.EndS) / 2;
        var lookout = chart.Scene.Lookout;
        var sun = Sun.At(chart.Track.At(middleS)).SeenFrom(lookout);
        return new LightWindow(
            EdgeAt(chart, stretch.StartS, opens: true),
            EdgeAt(chart, stretch.EndS, opens: false),
            chart.RidgeColumns.At(middleS),
            chart.Valley?.At(middleS),
            sun.Azimuth,
            Refraction.ToApparent(sun.AirlessAltitude, lookout.Height),
            chart.Scene.Span.Centre.TurnTo(sun.Azimuth).Abs(),
            SunEntersSpan(chart, stretch))
        {
            Half = HalfAt(chart, middleS),
            Kind = PictureKind.LitRidgeOverDarkGround,
            PictureShare = UnlitBearings.PictureShare(chart, stretch),
            LitStops = chart.Scene.Thresholds.LitStops,
            Unlit = UnlitBearings.Of(chart, stretch),
            Dark = DarkGround.At(chart, middleS),
            Gains = LightSweep.GainOf(chart, middleS),
            Loses = LightSweep.LossOf(chart, middleS),
        };
    }

    private static DayHalf HalfAt(LightChart chart, double seconds)
    {
        const double apartS = 30;
        return AltitudeAt(seconds + apartS) > AltitudeAt(seconds - apartS) ? DayHalf.Morning : DayHalf.Evening;

        Angle AltitudeAt(double at) => Sun.At(chart.Track.At(at)).SeenFrom(chart.Scene.Lookout).AirlessAltitude;
    }

    private static WindowEdge EdgeAt(LightChart chart, double seconds, bool opens)
    {
        var cause = CauseOf(chart, seconds, opens);
        var confidence = cause switch
        {
            WindowEdgeCause.DayEnds => default,
            WindowEdgeCause.ValleyLit or WindowEdgeCause.ValleyShaded => chart.ConfidenceAt(seconds, role => role == PatchRole.Valley),
            _ => chart.ConfidenceAt(seconds, role => role == PatchRole.Crest),
        };
        return new WindowEdge(
            chart.Track.At(seconds), cause, confidence.Uncertainty, confidence.UnknownBeyond, chart.RidgeColumns.At(seconds), chart.Valley?.At(seconds))
        {
            Horizon = confidence.Horizon,
        };
    }

    private static WindowEdgeCause CauseOf(LightChart chart, double seconds, bool opens)
    {
        if (seconds <= 0 || seconds >= chart.Track.LengthS) return WindowEdgeCause.DayEnds;
        var ridge = chart.Ridge.LitEnough(chart.Scene.Thresholds);
        var isRidge = ridge.Exists(stretch => (opens ? stretch.StartS : stretch.EndS) == seconds);
        return (isRidge, opens) switch
        {
            (true, true) => WindowEdgeCause.RidgeLit,
            (true, false) => WindowEdgeCause.RidgeShaded,
            (false, true) => WindowEdgeCause.ValleyShaded,
            (false, false) => WindowEdgeCause.ValleyLit,
        };
    }

    private static bool SunEntersSpan(LightChart chart, Stretch stretch)
    {
        const double stepS = 60;
        for (var seconds = stretch.StartS; seconds <= stretch.EndS; seconds += stepS)
            if (chart.Scene.Span.Contains(Sun.At(chart.Track.At(seconds)).SeenFrom(chart.Scene.Lookout).Azimuth)) return true;
        return false;
    }
}
