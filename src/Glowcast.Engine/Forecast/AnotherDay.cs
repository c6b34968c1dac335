using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>The same plan on another day: the first remedy of all where nothing else fits, and the only one where there is no
/// light at all.</summary>
/// <remarks>The coming days are judged by the season; the nearest that is possible, and where that was too close to call, the one with the best
/// chance, is worked out in full.</remarks>
internal static class AnotherDay
{
    private const int DaysAhead = 120;

    /// <returns>Null when none of the coming days has room for the set, and for a picture that no season knows.</returns>
    public static Remedy? For(
        Plan plan, Scene scene, PlannedSet planned, SetFit fit, Angle crest, Func<Plan, (PlannedSet Set, SetFit Fit)?> fitOn, CancellationToken cancel)
    {
        var picture = plan.Picture;
        if (!Season.Knows(picture)) return null;
        var (first, last) = (plan.Date!.Value.PlusDays(1), plan.Date.Value.PlusDays(DaysAhead));
        var days = Season.Over(scene, plan.Lookout!.Zone, plan.Conditions.SeasonAir, picture, cancel: cancel)
            .Days(first, last, new SeasonScore(planned.Clock.Total), new SeasonJudge(plan, crest).FitOf, null, null, cancel);
        return Candidates(days).Select(date => Try(plan with { Date = date }, planned, fit, fitOn)).FirstOrDefault(remedy => remedy is not null);
    }

    /// <summary>The dates worth working out, the nearest first; those too close to call may yet turn out not to be possible.</summary>
    internal static IEnumerable<LocalDate> Candidates(IReadOnlyList<SeasonDay> days)
    {
        var possible = days.Where(day => ChanceOf(day) is not null).ToList();
        return possible.Take(1).Concat(possible.Skip(1).OrderByDescending(ChanceOf).Take(1)).Select(day => day.Date);
    }

    /// <summary>Of the day's surest window; null where the set is in none.</summary>
    private static double? ChanceOf(SeasonDay day) => day.Windows
        .Where(window => window.Fit is { Verdict: Verdict.Fits or Verdict.Tight }).Max(window => (double?)window.Fit!.Chance);

    private static Remedy? Try(Plan onDay, PlannedSet planned, SetFit fit, Func<Plan, (PlannedSet Set, SetFit Fit)?> fitOn)
    {
        if (fitOn(onDay) is not { Fit.IsPossible: true } there) return null;
        var sets = new SetSequence(there.Set);
        var date = NodaTime.Text.LocalDatePattern.Iso.Format(onDay.Date!.Value);
        return new Remedy($"Come on {date}.", PrintCost.Of(planned, sets), sets.Parts, there.Fit, there.Fit.Margin!.Value - (fit.Margin ?? Duration.Zero));
    }
}
