using Glowcast.Engine.Forecast;
using NodaTime;

namespace Glowcast.Cli.Showing;

/// <summary>Whether the set fits into the light, when to start, and what would help.</summary>
internal static class FitFacts
{
    public static void Write(Page page, SetFit fit, IReadOnlyList<Remedy> remedies, string? whyNothingFits, Clock clock)
    {
        page.Paragraph(FitWords.Verdict(fit), fit.Verdict switch
        {
            Engine.Measures.Verdict.Fits => Tone.Good,
            Engine.Measures.Verdict.Tight => Tone.Doubtful,
            _ => Tone.Bad,
        });
        page.Facts(
            ("be on site by", fit.OnSiteBy is { } onSite ? $"{clock.Say(onSite)}, with {Say.Time(fit.SetUp)} to set up and rehearse" : null),
            ("start at", SayAt(fit.RecommendedStart, clock)),
            ("earliest start", SayAt(fit.EarliestStart, clock)),
            ("latest start", SayAt(fit.LatestStart, clock)),
            ("brightness", fit.Drift is { } drift ? FitWords.Drift(drift) : null),
            ("best start", fit.FirstProblem is null ? null : SayAt(fit.BestStart, clock)),
            ("first problem", fit.FirstProblem is { } problem ? FitWords.Problem(problem, clock) : null));
        WriteRemedies(page, fit, remedies, whyNothingFits, clock);
    }

    private static void WriteRemedies(Page page, SetFit fit, IReadOnlyList<Remedy> remedies, string? whyNothingFits, Clock clock)
    {
        if (remedies.Count == 0)
        {
            if (fit.Verdict == Engine.Measures.Verdict.TooLong && whyNothingFits is not null) page.Paragraph(whyNothingFits);
            return;
        }
        page.Paragraph($"What {(fit.IsPossible ? "gives it room" : "makes it fit")}, the cheapest for the print first:");
        page.Table(["change", "costs", "start from", ">to spare", "print"], remedies.Select<Remedy, IReadOnlyList<string>>(remedy =>
        [
            remedy.Change, remedy.Cost, clock.Short(remedy.Fit.EarliestStart!.Value), Say.Time(remedy.Fit.Margin!.Value),
            $"{remedy.Set.Layout.Print.Width.Millimetres / 10:0} x {remedy.Set.Layout.Print.Height.Millimetres / 10:0} cm",
        ]));
    }

    private static string? SayAt(Instant? instant, Clock clock) => instant is { } given ? clock.Say(given) : null;
}
