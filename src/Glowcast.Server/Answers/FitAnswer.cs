using Glowcast.Engine.Forecast;
using NodaTime;

namespace Glowcast.Server.Answers;

/// <summary>Whether the set can be finished in the light.</summary>
/// <param name="MarginS">By how much the start may slip; negative by how much the set is too long; null without a window.</param>
/// <param name="BestStart">Where to start all the same when it does not fit.</param>
/// <param name="RecommendedStart">The one with the most safety on both sides whose exposures stay within tolerance.</param>
/// <param name="RecommendedMarginS">By how much that one may slip.</param>
/// <param name="SetUpS">From arriving at the spot to being ready.</param>
/// <param name="OnSiteBy">For the recommended start.</param>
/// <param name="WhyNothingFits">A sentence; null where the set or a remedy fits.</param>
public sealed record FitAnswer(
    Verdict Verdict, double? MarginS, string? EarliestStart, string? LatestStart, string? EarliestStartLocal, string? LatestStartLocal,
    string? BestStart, double UncertaintyS, ProblemAnswer? FirstProblem, IReadOnlyList<RemedyAnswer> Remedies,
    string? RecommendedStart, string? RecommendedStartLocal, double? RecommendedMarginS, double SetUpS, string? OnSiteBy, string? OnSiteByLocal,
    string? OnSiteForEarliest, string? OnSiteForEarliestLocal, DriftAnswer? ExposureDrift, string? WhyNothingFits)
{
    public static FitAnswer Of(SetFit fit, PlannedSet planned, IReadOnlyList<Remedy> remedies, DateTimeZone? zone, string? whyNothingFits = null)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return new FitAnswer(
            fit.Verdict, fit.Margin?.TotalSeconds, Moments.Utc(fit.EarliestStart), Moments.Utc(fit.LatestStart),
            Moments.Local(fit.EarliestStart, zone), Moments.Local(fit.LatestStart, zone), Moments.Utc(fit.BestStart), fit.Uncertainty.TotalSeconds,
            fit.FirstProblem is { } problem ? ProblemAnswer.Of(problem) : null, [.. remedies.Select(remedy => RemedyAnswer.Of(remedy, planned, zone))],
            Moments.Utc(fit.RecommendedStart), Moments.Local(fit.RecommendedStart, zone),
            fit.RecommendedStart is { } start ? fit.MarginFrom(start).TotalSeconds : null, fit.SetUp.TotalSeconds,
            Moments.Utc(fit.OnSiteBy), Moments.Local(fit.OnSiteBy, zone), Moments.Utc(fit.OnSiteForEarliest), Moments.Local(fit.OnSiteForEarliest, zone),
            fit.Drift is { } drift ? DriftAnswer.Of(drift) : null, whyNothingFits);
    }
}

/// <summary>The first frame, in the order of shooting, that misses its light when started at the best start.</summary>
/// <param name="Frame">Its place in the order of its set, from 1.</param>
public sealed record ProblemAnswer(int Set, int Frame, int Row, int Column, double BearingDeg, string At, FrameProblem Problem)
{
    public static ProblemAnswer Of(FailingFrame failing)
    {
        ArgumentNullException.ThrowIfNull(failing);
        return new ProblemAnswer(
            failing.Exposure.Set + 1, failing.Exposure.Frame + 1, failing.Exposure.Row + 1, failing.Exposure.Column + 1,
            failing.Bearing.Degrees, Moments.Utc(failing.At), failing.Problem);
    }
}

/// <summary>How far the brightness of the ridge drifts while the set is shot; positive where it brightens.</summary>
/// <param name="FirstToLastStops">From the first exposure of a set to its last, in the set that drifts most.</param>
/// <param name="LeftStops">What is left when the rows are stepped as said.</param>
/// <param name="Advice">What is wrong and what to do; empty within tolerance.</param>
public sealed record DriftAnswer(
    double FirstToLastStops, double ToleranceStops, bool WithinTolerance, double LeftStops, IReadOnlyList<RowExposureAnswer> Rows, IReadOnlyList<string> Advice)
{
    public static DriftAnswer Of(ExposureDrift drift)
    {
        ArgumentNullException.ThrowIfNull(drift);
        return new DriftAnswer(
            drift.FirstToLastStops, drift.ToleranceStops, drift.IsWithinTolerance, drift.LeftStops,
            [.. drift.Rows.Select(row => new RowExposureAnswer(row.Row + 1, row.BrighterStops, row.Thirds))], drift.Advice);
    }
}

/// <summary>How a row is exposed, in the order of shooting.</summary>
/// <param name="Row">1 is the topmost.</param>
/// <param name="BrighterStops">How much brighter the ridge is than when the first row was shot.</param>
/// <param name="ExposureThirds">Longer exposure than the first row's, in thirds of a stop, where the drift is beyond tolerance; negative for shorter.</param>
public sealed record RowExposureAnswer(int Row, double BrighterStops, int ExposureThirds);

/// <summary>A change that makes the set fit, worked out in full.</summary>
/// <param name="PrintWidthMm">Of all parts side by side.</param>
/// <param name="Parts">1, or 2 where the span is split.</param>
/// <param name="Edits">What it changes in the plan: new values by dotted field names, a split span's being those of the half shot first.</param>
/// <param name="PixelsLost">Share of the printable pixels.</param>
/// <param name="SafetyLost">Share of the sets given up, plus the overlap given up, plus a quarter for a seam between halves.</param>
public sealed record RemedyAnswer(
    string Change, string Cost, double MarginS, string EarliestStart, string LatestStart, string? EarliestStartLocal, string? LatestStartLocal,
    int FramesPerSet, double TotalS, double PrintWidthMm, double PrintHeightMm, Verdict Verdict, double MarginGainedS,
    double PixelsLost, double WidthChangePercent, double HeightChangePercent, double SafetyLost, int Parts, string RecommendedStart, string? RecommendedStartLocal, IReadOnlyDictionary<string, object> Edits)
{
    public static RemedyAnswer Of(Remedy remedy, PlannedSet planned, DateTimeZone? zone)
    {
        ArgumentNullException.ThrowIfNull(remedy);
        var (fit, cost) = (remedy.Fit, remedy.PrintCost);
        return new RemedyAnswer(
            remedy.Change, remedy.Cost, fit.Margin!.Value.TotalSeconds, Moments.Utc(fit.EarliestStart!.Value), Moments.Utc(fit.LatestStart!.Value),
            Moments.Local(fit.EarliestStart, zone), Moments.Local(fit.LatestStart, zone), remedy.FramesPerSet, remedy.Total.TotalSeconds,
            remedy.PrintWidth.Millimetres, remedy.PrintHeight.Millimetres, fit.Verdict, remedy.MarginGained.TotalSeconds,
            cost.PixelsLost, 100 * cost.WidthChange, 100 * cost.HeightChange, cost.SafetyLost, remedy.Parts.Count,
            Moments.Utc(fit.RecommendedStart!.Value), Moments.Local(fit.RecommendedStart, zone), PlanEdits.Of(remedy, planned));
    }
}
