using Glowcast.Engine.Forecast;
using NodaTime;

namespace Glowcast.Cli.Showing;

/// <summary>Whether the set fits into the light, when to start, and what would help.</summary>
internal static class FitFacts
{
    private const int RowsShown = 12;

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
            ("start at", fit.ChosenStart is { } start ? $"{clock.Say(start)}, {FitWords.Because(fit)}" : null),
            ("room before", fit.Room is { } room ? Room(room.Before, room.BeforeUncertainty) : null),
            ("room after", fit.Room is { } after ? Room(after.After, after.AfterUncertainty) : null),
            ("in light", fit.Starts.Count > 0 ? $"{fit.InLight} of {fit.Exposures} exposures, by the best estimate" : null),
            ("advised", fit.ChosenBecause == StartReason.Given ? SayAt(fit.RecommendedStart, clock) : null),
            ("earliest start", SayAt(fit.EarliestStart, clock)),
            ("latest start", SayAt(fit.LatestStart, clock)),
            ("brightness", fit.Drift is { } drift ? FitWords.Drift(drift) : null),
            ("first problem", fit.FirstProblem is { } problem ? FitWords.Problem(problem, clock) : null));
        if (fit.Reasons.Count > 0) page.List([.. fit.Reasons.Select(reason => ReasonWords.Of(reason, clock))]);
        WriteStarts(page, fit, clock);
        WriteRemedies(page, fit, remedies, whyNothingFits, clock);
    }

    /// <summary>The table of starts, as many of its rows as a page takes.</summary>
    private static void WriteStarts(Page page, SetFit fit, Clock clock)
    {
        if (fit.Starts.Count == 0) return;
        var step = Math.Max(1, fit.Starts.Count / RowsShown);
        page.Paragraph("What comes of other starts:");
        page.Table([clock.Zone is null ? "UTC" : "local", ">in light", "chance", "fails first"], fit.Starts.Where((_, row) => row % step == 0).Select<JudgedStart, IReadOnlyList<string>>(row =>
        [
            clock.Time(row.Start), $"{row.InLight}", FitWords.Chance(row.Chance),
            row.FirstProblem is { } failing ? $"{failing.Bearing.Degrees:0.0}°: {FitWords.Why(failing.Problem)}" : "",
        ]));
    }

    private static string Room(Duration room, Duration uncertainty) =>
        $"{(room < Duration.Zero ? "−" : "")}{Say.Time(room)} {Say.PlusMinus(uncertainty.TotalSeconds)}";

    private static void WriteRemedies(Page page, SetFit fit, IReadOnlyList<Remedy> remedies, string? whyNothingFits, Clock clock)
    {
        if (remedies.Count == 0)
        {
            if (fit.Verdict == Engine.Measures.Verdict.TooLong && whyNothingFits is not null) page.Paragraph(whyNothingFits);
            return;
        }
        page.Paragraph($"What {(fit.IsPossible ? "gives it room" : "makes it fit")}, the cheapest for the print first:");
        page.Table(["change", "costs", "start from", ">room", "chance", "print"], remedies.Select<Remedy, IReadOnlyList<string>>(remedy =>
        [
            remedy.Change, remedy.Cost, clock.Short(remedy.Fit.EarliestStart!.Value), Say.Time(remedy.Fit.Margin!.Value), FitWords.Chance(remedy.Fit.Chance),
            $"{remedy.Set.Layout.Print.Width.Millimetres / 10:0} x {remedy.Set.Layout.Print.Height.Millimetres / 10:0} cm",
        ]));
    }

    private static string? SayAt(Instant? instant, Clock clock) => instant is { } given ? clock.Say(given) : null;
}
