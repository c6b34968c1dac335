using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>Finds the windows of a light chart (docs/model.md, section Light).</summary>
public static class WindowSearch
{
    /// <summary>Over a shorter gap nobody packs up.</summary>
    private static readonly Duration LongestBreak = Duration.FromMinutes(30);

    /// <summary>The windows of the day in order of time; none is an ordinary answer.</summary>
    /// <param name="kind">Of picture; the lit ridge over dark ground when left out.</param>
    public static IReadOnlyList<LightWindow> Windows(LightChart chart, PictureKind kind = PictureKind.LitRidgeOverDarkGround)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var windows = PictureStretches.Of(chart, kind).ConvertAll(stretch => Describe(chart, kind, stretch)).FindAll(IsKnown);
        for (var i = 1; i < windows.Count; i++)
        {
            var gap = windows[i].Start.At - windows[i - 1].End.At;
            if (gap < LongestBreak) windows[i] = windows[i] with { BreakBefore = new WindowBreak(gap, windows[i - 1].End.Cause) };
        }
        return windows;
    }

    /// <summary>Light that is shorter than its ends are known to may as well not be there.</summary>
    internal static bool IsKnown(LightWindow window) => Math.Max(window.Start.Uncertainty.CombinedS, window.End.Uncertainty.CombinedS) <= window.Length.TotalSeconds;

    private static LightWindow Describe(LightChart chart, PictureKind kind, Stretch stretch)
    {
        var middleS = (stretch.StartS + stretch.EndS) / 2;
        var (azimuth, airless) = chart.SourceAt(middleS);
        return new LightWindow(
            EdgeAt(chart, kind, stretch.StartS, opens: true),
            EdgeAt(chart, kind, stretch.EndS, opens: false),
            chart.RidgeColumns.At(middleS),
            chart.Valley?.At(middleS),
            azimuth,
            Refraction.ToApparent(airless, chart.Scene.Lookout.Height),
            chart.Scene.Span.Centre.TurnTo(azimuth).Abs(),
            EntersSpan(chart, stretch))
        {
            Half = chart.IsClimbing(middleS) ? DayHalf.Morning : DayHalf.Evening,
            Kind = kind,
            Source = chart.Source,
            PictureShare = UnlitBearings.PictureShare(chart, stretch),
            LitStops = chart.Scene.Thresholds.LitStops,
            Unlit = kind == PictureKind.Twilight ? [] : UnlitBearings.Of(chart, stretch),
            Dark = DarkGround.At(chart, middleS),
            Gains = LightSweep.GainOf(chart, middleS),
            Loses = LightSweep.LossOf(chart, middleS),
            EarthShadowTop = kind == PictureKind.Twilight ? EarthShadow.Over(chart.Scene.Span, azimuth, airless, chart.Scene.Lookout.Height)?.Shadow.Top : null,
        };
    }

    private static WindowEdge EdgeAt(LightChart chart, PictureKind kind, double seconds, bool opens)
    {
        var cause = EdgeCauses.Of(chart, kind, seconds, opens);
        var confidence = EdgeCauses.GroundOf(cause) is { } ground ? chart.ConfidenceAt(seconds, role => role == ground) : default;
        return new WindowEdge(
            chart.Track.At(seconds), cause, confidence.Uncertainty, confidence.UnknownBeyond, chart.RidgeColumns.At(seconds), chart.Valley?.At(seconds))
        {
            Horizon = confidence.Horizon,
        };
    }

    private static bool EntersSpan(LightChart chart, Stretch stretch)
    {
        const double stepS = 60;
        for (var seconds = stretch.StartS; seconds <= stretch.EndS; seconds += stepS)
            if (chart.Scene.Span.Contains(chart.SourceAt(seconds).Azimuth)) return true;
        return false;
    }
}
