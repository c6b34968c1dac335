using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Lays sets over a day's light: which window, which start, and how sure.</summary>
internal static class FitSearch
{
    /// <inheritdoc cref="Fit(JudgedDay, SetSequence)"/>
    public static SetFit Fit(LightOfDay light, SetSequence sets) => Fit(JudgedDay.Of(light), sets);

    /// <summary>The sets in the window that gives them the best chance; of equal chances in the one that leaves them the most room.</summary>
    public static SetFit Fit(JudgedDay day, SetSequence sets)
    {
        var best = day.Windows.Select(window => In(day, window, sets.Exposed(window.Exposure)))
            .OrderBy(fit => fit.Verdict).ThenByDescending(fit => Math.Round(fit.Chance / StartChoice.AsSafe)).ThenByDescending(fit => fit.Margin).FirstOrDefault();
        return (best ?? SetFit.NoLight) with { SetUp = SetUpTimes.Usual.Before(sets.Parts.Max(part => part.Layout.Rows)) };
    }

    private static SetFit In(JudgedDay day, JudgedWindow window, SetSequence sets)
    {
        var judge = new SetJudge(day, window, sets);
        var advised = Advised(day, judge, sets);
        var chosen = day.GivenStartS is { } given ? new ChosenStart(given, StartReason.Given) : advised;
        var (start, range) = (day.At(chosen.StartS), judge.RangeAt(chosen.StartS));
        var judged = JudgedStart.Of(judge, sets, day, start);
        var recommended = judge.IsPossible ? day.At(advised.StartS) : (Instant?)null;
        return new SetFit(
            judged.FirstProblem is null ? day.Wishes.Bounds.Of(judged.Chance) : Verdict.TooLong,
            Duration.FromSeconds(range?.LengthS ?? -judge.Window.Stretch.LengthS),
            judge.IsPossible ? day.At(range!.First.StartS) : null, judge.IsPossible ? day.At(range!.Last.StartS) : null,
            day.At(judge.IsPossible ? range!.First.StartS : judge.LeastLossS()), judged.FirstProblem,
            Duration.FromSeconds(range is null ? 0 : double.Hypot(range.FirstDoubt.CombinedS, range.LastDoubt.CombinedS)))
        {
            Chance = judged.Chance,
            ChosenStart = start,
            ChosenBecause = chosen.Why,
            InLight = judged.InLight,
            RecommendedStart = recommended,
            RecommendedBecause = advised.Why,
            Room = range is null ? null : StartRoom.Of(range, chosen.StartS),
            IsCapped = judge.IsCapped(chosen.StartS),
            Drift = ExposureDrift.Of(judge.Window.Ridge, sets, start, day.Wishes.ToleranceStops),
            Judged = new JudgedSets(day, judge, sets),
        };
    }

    private static ChosenStart Advised(JudgedDay day, SetJudge judge, SetSequence sets)
    {
        if (judge.Best is not { IsPossible: true } range) return new ChosenStart(day.NextWholeS(judge.LeastLossS()), StartReason.LeastLost);
        return StartChoice.Of([.. LooksAt(day, range).Select(startS => CandidateAt(day, judge.Window.Ridge, range, sets, startS))], day.Wishes.ToleranceStops);
    }

    /// <summary>Whole seconds, evenly through the possible starts; their middle where there is no whole second between them.</summary>
    private static IEnumerable<double> LooksAt(JudgedDay day, StartRange range)
    {
        var firstS = day.NextWholeS(range.First.StartS);
        var seconds = Math.Ceiling(range.Last.StartS - firstS);
        if (seconds < 1) return [(range.First.StartS + range.Last.StartS) / 2];
        var stepS = Math.Max(1, Math.Ceiling(seconds / day.Looks));
        return Enumerable.Range(0, (int)Math.Ceiling(seconds / stepS)).Select(look => firstS + (look * stepS));
    }

    // By the chance before it is held down for what is unknown, which goes for all starts alike.
    private static StartCandidate CandidateAt(JudgedDay day, RidgeBrightness ridge, StartRange range, SetSequence sets, double startS)
    {
        var light = ridge.At(day.At(startS + (sets.TotalS / 2)));
        return new StartCandidate(
            startS, range.ChanceOf(startS), ExposureDrift.FirstToLast(ridge, sets, day.At(startS)), LightRichness.Warmth(light.DirectColour), LightRichness.Depth(light));
    }
}
