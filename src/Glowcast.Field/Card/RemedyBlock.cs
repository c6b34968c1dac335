using System.Xml.Linq;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Field.Words;

namespace Glowcast.Field.Card;

/// <summary>What makes a set fit that does not, or gives it room; the cheapest for the print first.</summary>
internal static class RemedyBlock
{
    // The first of them are the cheap ones, and a card is small.
    private const int MostShown = 3;

    /// <returns>Null where the set fits with comfort.</returns>
    public static XElement? Of(LightForecast forecast, Clock clock)
    {
        if (forecast.Fit is not { } fit || fit.Verdict == Verdict.Fits) return null;
        var reason = fit.Reasons.Count > 0 ? ReasonWords.Of(fit.Reasons[0], clock) : null;
        var failing = fit.FirstProblem is { } first ? $"First to fail: {FitWords.Problem(first, clock)}." : null;
        var problem = reason is null && failing is null ? null : Markup.Element("p", string.Join(' ', new[] { reason, failing }.OfType<string>()));
        return forecast.Remedies.Count == 0
            ? Markup.Section("remedies", "What would help", problem, Markup.Element("p", forecast.WhyNothingFits ?? "Nothing that was tried."))
            : Markup.Section("remedies", "What helps", problem, Markup.List(forecast.Remedies.Take(MostShown).Select(remedy =>
                $"{remedy.Change} Start {clock.Short(remedy.Fit.EarliestStart!.Value)} to {clock.Short(remedy.Fit.LatestStart!.Value)}. {remedy.Cost}")));
    }
}
