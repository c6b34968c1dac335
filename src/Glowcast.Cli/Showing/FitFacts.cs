using Glowcast.Engine.Forecast;
using NodaTime;

namespace Glowcast.Cli.Showing;

/// <summary>Whether the set fits into the light, when to start, and what would help.</summary>
internal static class FitFacts
{
    public static void Write(Page page, SetFit fit, IReadOnlyList<Remedy> remedies, string? whyNothingFits, Clock clock)
    {
        page.Paragraph(Verdict(fit), fit.Verdict switch
        {
            Engine.Forecast.Verdict.Fits => Tone.Good,
            Engine.Forecast.Verdict.Tight => Tone.Doubtful,
            _ => Tone.Bad,
        });
        page.Facts(
            ("be on site by", fit.OnSiteBy is { } onSite ? $"{clock.Say(onSite)}, with {Say.Time(fit.SetUp)} to set up and rehearse" : null),
            ("start at", SayAt(fit.RecommendedStart, clock)),
            ("earliest start", SayAt(fit.EarliestStart, clock)),
            ("latest start", SayAt(fit.LatestStart, clock)),
            ("brightness", fit.Drift is { } drift ? Drift(drift) : null),
            ("best start", fit.FirstProblem is null ? null : SayAt(fit.BestStart, clock)),
            ("first problem", fit.FirstProblem is { } problem ? Problem(problem, clock) : null));
        WriteRemedies(page, fit, remedies, whyNothingFits, clock);
    }

    private static void WriteRemedies(Page page, SetFit fit, IReadOnlyList<Remedy> remedies, string? whyNothingFits, Clock clock)
    {
        if (remedies.Count == 0)
        {
            if (fit.Verdict == Engine.Forecast.Verdict.TooLong && whyNothingFits is not null) page.Paragraph(whyNothingFits);
            return;
        }
        page.Paragraph($"What {(fit.IsPossible ? "gives it room" : "makes it fit")}, the cheapest for the print first:");
        page.Table(["change", "costs", "start from", ">to spare", "print"], remedies.Select<Remedy, IReadOnlyList<string>>(remedy =>
        [
            remedy.Change, remedy.Cost, clock.Short(remedy.Fit.EarliestStart!.Value), Say.Time(remedy.Fit.Margin!.Value),
            $"{remedy.Set.Layout.Print.Width.Millimetres / 10:0} x {remedy.Set.Layout.Print.Height.Millimetres / 10:0} cm",
        ]));
    }

    private static string Verdict(SetFit fit) => fit.Verdict switch
    {
        Engine.Forecast.Verdict.Fits => $"It fits: the start may slip by {Say.Time(fit.Margin!.Value)} ({Say.PlusMinus(fit.Uncertainty.TotalSeconds)}).",
        Engine.Forecast.Verdict.Tight => $"It is tight: the start may slip by {Say.Time(fit.Margin!.Value)} only, and the forecast itself is no better than {Say.PlusMinus(fit.Uncertainty.TotalSeconds)}.",
        Engine.Forecast.Verdict.TooLong => $"It does not fit: the set is too long by {Say.Time(fit.Margin!.Value)}.",
        _ => "No light: there is no window on this date.",
    };

    private static string Drift(ExposureDrift drift) =>
        $"{drift.FirstToLastStops:+0.00;-0.00} stops from the first frame to the last, {drift.ToleranceStops:0.00} allowed{(drift.Advice.Count > 0 ? $". {string.Join(" ", drift.Advice)}" : "")}";

    private static string? SayAt(Instant? instant, Clock clock) => instant is { } given ? clock.Say(given) : null;

    private static string Problem(FailingFrame failing, Clock clock)
    {
        var exposure = failing.Exposure;
        return $"frame {exposure.Frame + 1} of set {exposure.Set + 1} (row {exposure.Row + 1}, column {exposure.Column + 1}, {failing.Bearing.Degrees:0.0}°) at {clock.Say(failing.At)}: {Why(failing.Problem)}";
    }

    private static string Why(FrameProblem problem) => problem switch
    {
        FrameProblem.RidgeNeverLit => "the sun never reaches its ridge in this window",
        FrameProblem.RidgeNotYetLit => "the sun has not reached its ridge yet",
        FrameProblem.RidgeNoLongerLit => "the sun has left its ridge",
        FrameProblem.ValleyNotYetShaded => "the valley is not in shade yet",
        _ => "the sun has reached the valley",
    };
}
