using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Field.Words;
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
    /// <summary>That every exposure has its light, from the start chosen: 0 to 1.</summary>
    public double Chance { get; init; }

    /// <summary>No more is claimed, because ground past the edge of the grid could matter.</summary>
    public bool ChanceIsCapped { get; init; }

    /// <summary>The start that the verdict is about: the plan's, or the one advised; where none is possible, the one that loses least.</summary>
    public string? ChosenStart { get; init; }

    public string? ChosenStartLocal { get; init; }

    public StartReason? ChosenBecause { get; init; }

    /// <summary>The verdict and its reason for the start, in words.</summary>
    public string? Sentence { get; init; }

    public string? ChosenSentence { get; init; }

    /// <summary>By how much the start chosen may be earlier; negative where it lies before the first possible one; null where a frame never has light.</summary>
    public double? RoomBeforeS { get; init; }

    /// <summary>By how much it may be later.</summary>
    public double? RoomAfterS { get; init; }

    /// <summary>One standard deviation.</summary>
    public double? RoomBeforeUncertaintyS { get; init; }

    public double? RoomAfterUncertaintyS { get; init; }

    /// <summary>How many exposures have their light from the start chosen, by the best estimate.</summary>
    public int InLight { get; init; }

    public int Exposures { get; init; }

    /// <summary>Every start that shares time with the window, in order; empty without a window.</summary>
    public IReadOnlyList<JudgedStartAnswer> Starts { get; init; } = [];

    /// <summary>Why it fits no better, in order of weight.</summary>
    public IReadOnlyList<FitReasonAnswer> Reasons { get; init; } = [];

    public static FitAnswer Of(LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        var (fit, clock) = (forecast.Fit!, new Clock(forecast.Plan.Date!.Value, forecast.Plan.Lookout!.Zone));
        return Of(fit, forecast.Set!, forecast.Remedies, clock.Zone, forecast.WhyNothingFits) with
        {
            Chance = Math.Round(fit.Chance, 4),
            ChanceIsCapped = fit.IsCapped,
            ChosenStart = Moments.Utc(fit.ChosenStart),
            ChosenStartLocal = Moments.Local(fit.ChosenStart, clock.Zone),
            ChosenBecause = fit.ChosenStart is null ? null : fit.ChosenBecause,
            Sentence = FitWords.Verdict(fit),
            ChosenSentence = fit.ChosenStart is null ? null : FitWords.Because(fit),
            RoomBeforeS = fit.Room?.Before.TotalSeconds,
            RoomAfterS = fit.Room?.After.TotalSeconds,
            RoomBeforeUncertaintyS = fit.Room?.BeforeUncertainty.TotalSeconds,
            RoomAfterUncertaintyS = fit.Room?.AfterUncertainty.TotalSeconds,
            InLight = fit.InLight,
            Exposures = fit.Exposures,
            Starts = [.. fit.Starts.Select(JudgedStartAnswer.Of)],
            Reasons = [.. fit.Reasons.Select(reason => FitReasonAnswer.Of(reason, clock))],
        };
    }

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

/// <summary>What comes of beginning at some moment.</summary>
/// <param name="Start">A whole second.</param>
/// <param name="InLight">How many exposures have their light, by the best estimate.</param>
/// <param name="Chance">That all have it.</param>
/// <param name="FirstProblem">Null where all have it, by the best estimate.</param>
public sealed record JudgedStartAnswer(string Start, int InLight, double Chance, ProblemAnswer? FirstProblem)
{
    public static JudgedStartAnswer Of(JudgedStart start)
    {
        ArgumentNullException.ThrowIfNull(start);
        return new JudgedStartAnswer(Moments.Utc(start.Start), start.InLight, Math.Round(start.Chance, 4), start.FirstProblem is { } problem ? ProblemAnswer.Of(problem) : null);
    }
}

/// <summary>Why the set fits no better.</summary>
/// <param name="FromDeg">The bearings it is about; null where it is about all of the span.</param>
public sealed record FitReasonAnswer(FitReasonCode Code, double? FromDeg, double? ToDeg, string Sentence)
{
    /// <summary>When the light of those bearings comes, or goes.</summary>
    public string? At { get; init; }

    /// <summary>True bearing of the sun then, as those bearings see it, and how far off what stands before it is.</summary>
    public double? HorizonBearingDeg { get; init; }

    public double? HorizonDistanceM { get; init; }

    /// <summary>The first possible start were nothing asked of those bearings; null where there would still be none.</summary>
    public string? EarliestWithout { get; init; }

    internal static FitReasonAnswer Of(FitReason reason, Clock clock) => new(
        reason.Code, reason.Strip is { } strip ? Math.Round(strip.From.Degrees, 3) : null, reason.Strip is { } to ? Math.Round(to.To.Degrees, 3) : null, ReasonWords.Of(reason, clock))
    {
        At = Moments.Utc(reason.At),
        HorizonBearingDeg = reason.Horizon?.SunAzimuth.Degrees,
        HorizonDistanceM = reason.Horizon?.Distance?.Metres,
        EarliestWithout = Moments.Utc(reason.EarliestWithout),
    };
}

/// <summary>The first frame, in the order of shooting, that misses its light.</summary>
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
    double PixelsLost, double WidthChangePercent, double HeightChangePercent, double SafetyLost, int Parts, string RecommendedStart, string? RecommendedStartLocal, IReadOnlyDictionary<string, object?> Edits)
{
    /// <summary>That every exposure has its light, from the recommended start.</summary>
    public double Chance { get; init; }

    public static RemedyAnswer Of(Remedy remedy, PlannedSet planned, DateTimeZone? zone)
    {
        ArgumentNullException.ThrowIfNull(remedy);
        var (fit, cost) = (remedy.Fit, remedy.PrintCost);
        return new RemedyAnswer(
            remedy.Change, remedy.Cost, fit.Margin!.Value.TotalSeconds, Moments.Utc(fit.EarliestStart!.Value), Moments.Utc(fit.LatestStart!.Value),
            Moments.Local(fit.EarliestStart, zone), Moments.Local(fit.LatestStart, zone), remedy.FramesPerSet, remedy.Total.TotalSeconds,
            remedy.PrintWidth.Millimetres, remedy.PrintHeight.Millimetres, fit.Verdict, remedy.MarginGained.TotalSeconds,
            cost.PixelsLost, 100 * cost.WidthChange, 100 * cost.HeightChange, cost.SafetyLost, remedy.Parts.Count,
            Moments.Utc(fit.RecommendedStart!.Value), Moments.Local(fit.RecommendedStart, zone), PlanEdits.Of(remedy, planned))
        {
            Chance = Math.Round(fit.Chance, 4),
        };
    }
}
