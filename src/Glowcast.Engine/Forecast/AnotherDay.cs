using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>The same set on another day: the first remedy of all where nothing else fits, and the only one where there is no
/// light at all.</summary>
/// <remarks>The coming days are looked through by the season, to a minute or two; what looks long enough is then worked out
/// in full: the nearest such day, and where that is too tight after all, the one with the longest window.</remarks>
internal static class AnotherDay
{
    private const int DaysAhead = 120;

    /// <returns>Null when none of the coming days has room for the set.</returns>
    public static Remedy? For(Plan plan, Scene scene, PlannedSet planned, SetFit fit, Func<Plan, SetFit?> fitOn, CancellationToken cancel)
    {
        var (first, last) = (plan.Date!.Value.PlusDays(1), plan.Date.Value.PlusDays(DaysAhead));
        var length = planned.Clock.Total;
        var days = Season.Over(scene, plan.Lookout!.Zone, cancel: cancel).Days(first, last, new SeasonScore(length), cancel: cancel);
        var roomy = days.Where(day => LongestOf(day) >= length).ToList();
        foreach (var day in roomy.Take(1).Concat(roomy.Skip(1).OrderByDescending(LongestOf).Take(1)))
        {
            var onDay = plan with { Date = day.Date };
            if (fitOn(onDay) is not { IsPossible: true } there) continue;
            var sets = new SetSequence(planned with { Plan = onDay });
            var date = NodaTime.Text.LocalDatePattern.Iso.Format(day.Date);
            return new Remedy($"Come on {date}.", PrintCost.Of(planned, sets), sets.Parts, there, there.Margin!.Value - (fit.Margin ?? Duration.Zero));
        }
        return null;
    }

    private static Duration LongestOf(SeasonDay day) => day.Windows.Select(window => window.Time.Duration).DefaultIfEmpty(Duration.Zero).Max();
}
