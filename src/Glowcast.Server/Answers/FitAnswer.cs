using Glowcast.Engine.Forecast;
using NodaTime;

namespace Glowcast.Server.Answers;

/// <summary>Whether the set can be finished in the light.</summary>
/// <param name="MarginS">By how much the start may slip; negative by how much the set is too long; null without a window.</param>
/// <param name="BestStart">Where to start all the same when it does not fit.</param>
public sealed record FitAnswer(
    Verdict Verdict, double? MarginS, string? EarliestStart, string? LatestStart, string? EarliestStartLocal, string? LatestStartLocal,
    string? BestStart, double UncertaintyS, ProblemAnswer? FirstProblem, IReadOnlyList<RemedyAnswer> Remedies)
{
    public static FitAnswer Of(SetFit fit, IReadOnlyList<Remedy> remedies, DateTimeZone? zone)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return new FitAnswer(
            fit.Verdict, fit.Margin?.TotalSeconds, Moments.Utc(fit.EarliestStart), Moments.Utc(fit.LatestStart),
            Moments.Local(fit.EarliestStart, zone), Moments.Local(fit.LatestStart, zone), Moments.Utc(fit.BestStart), fit.Uncertainty.TotalSeconds,
            fit.FirstProblem is { } problem ? ProblemAnswer.Of(problem) : null, [.. remedies.Select(remedy => RemedyAnswer.Of(remedy, zone))]);
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

/// <summary>A change that makes the set fit, worked out in full.</summary>
public sealed record RemedyAnswer(
    string Change, string Cost, double MarginS, string EarliestStart, string LatestStart, string? EarliestStartLocal, string? LatestStartLocal,
    int FramesPerSet, double TotalS, double PrintWidthMm, double PrintHeightMm)
{
    public static RemedyAnswer Of(Remedy remedy, DateTimeZone? zone)
    {
        ArgumentNullException.ThrowIfNull(remedy);
        var (layout, fit) = (remedy.Set.Layout, remedy.Fit);
        return new RemedyAnswer(
            remedy.Change, remedy.Cost, fit.Margin!.Value.TotalSeconds, Moments.Utc(fit.EarliestStart!.Value), Moments.Utc(fit.LatestStart!.Value),
            Moments.Local(fit.EarliestStart, zone), Moments.Local(fit.LatestStart, zone), layout.FramesPerSet, remedy.Set.Clock.Total.TotalSeconds,
            layout.Print.Width.Millimetres, layout.Print.Height.Millimetres);
    }
}
