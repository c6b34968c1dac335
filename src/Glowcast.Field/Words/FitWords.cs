using Glowcast.Engine.Forecast;

namespace Glowcast.Field.Words;

/// <summary>Whether the set fits into the light, in words.</summary>
internal static class FitWords
{
    public static string Verdict(SetFit fit) => fit.Verdict switch
    {
        Engine.Measures.Verdict.Fits => $"It fits: the start may slip by {Say.Time(fit.Margin!.Value)} ({Say.PlusMinus(fit.Uncertainty.TotalSeconds)}).",
        Engine.Measures.Verdict.Tight => $"It is tight: the start may slip by {Say.Time(fit.Margin!.Value)} only, and the forecast itself is no better than {Say.PlusMinus(fit.Uncertainty.TotalSeconds)}.",
        Engine.Measures.Verdict.TooLong => $"It does not fit: the set is too long by {Say.Time(fit.Margin!.Value)}.",
        _ => "No light: there is no window on this date.",
    };

    public static string Drift(ExposureDrift drift) =>
        $"{drift.FirstToLastStops:+0.00;-0.00} stops from the first frame to the last, {drift.ToleranceStops:0.00} allowed{(drift.Advice.Count > 0 ? $". {string.Join(" ", drift.Advice)}" : "")}";

    public static string Problem(FailingFrame failing, Clock clock)
    {
        var exposure = failing.Exposure;
        return $"frame {exposure.Frame + 1} of set {exposure.Set + 1} (row {exposure.Row + 1}, column {exposure.Column + 1}, {failing.Bearing.Degrees:0.0}°) at {clock.Say(failing.At)}: {Why(failing.Problem)}";
    }

    public static string Why(FrameProblem problem) => problem switch
    {
        FrameProblem.RidgeNeverLit => "the sun never reaches its ridge in this window",
        FrameProblem.RidgeNotYetLit => "the sun has not reached its ridge yet",
        FrameProblem.RidgeNoLongerLit => "the sun has left its ridge",
        FrameProblem.ValleyNotYetShaded => "the valley is not in shade yet",
        _ => "the sun has reached the valley",
    };
}
