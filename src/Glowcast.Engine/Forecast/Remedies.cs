using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>What would make a set fit, or why nothing does.</summary>
/// <param name="Remedies">The cheapest for the print first; empty where the set fits as it is.</param>
/// <param name="WhyNothingFits">A sentence; null where the set or a remedy fits.</param>
internal sealed record Cure(IReadOnlyList<Remedy> Remedies, string? WhyNothingFits);

/// <summary>Looks for what would make a set fit: every change by itself, and where none of the whole span works every two together; and the part of the span that has its light. Each is laid out
/// and laid over the light in full.</summary>
/// <remarks>For a tight set, what gives it comfort. There is no "start earlier": all starts have been looked at already; nor
/// "the ridge's row first": it is so already.</remarks>
internal sealed class Remedies
{
    private const int MostOffered = 8;

    /// <summary>Parts of a span are looked at in steps of this share of it.</summary>
    private const int PartSteps = 16;

    private readonly LightOfDay light;
    private readonly PlannedSet planned;
    private readonly SetFit fit;
    private readonly Angle crest;
    private readonly Dictionary<(BearingSpan Span, string Dark), JudgedDay> days = [];
    private (string Change, Duration Margin)? nearest;

    private Remedies(LightOfDay light, PlannedSet planned, SetFit fit, Angle crest) =>
        (this.light, this.planned, this.fit, this.crest) = (light, planned, fit, crest);

    /// <param name="crest">The highest in the span, by which the rows are pitched.</param>
    public static Cure For(LightOfDay light, PlannedSet planned, SetFit fit, Angle crest) => fit.Verdict is Verdict.Fits
        ? new Cure([], null)
        : new Remedies(light, planned, fit, crest).Look();

    private Cure Look()
    {
        var changes = fit.Verdict == Verdict.NoLight ? [] : SetChange.Of(planned).Concat(DarkStrips()).ToList();
        var working = new[] { FewerSets(), LitPart() }.OfType<Remedy>().Concat(changes.Select(Try).OfType<Remedy>()).ToList();
        if (!working.Exists(remedy => remedy.Set.Plan.Span == planned.Plan.Span) && !fit.IsPossible)
            working.AddRange(changes.SelectMany((first, i) => changes.Skip(i + 1).Select(first.And)).Select(Try).OfType<Remedy>());
        var ordered = Ordered(working).Take(MostOffered).ToList();
        return new Cure(ordered, ordered.Count == 0 && fit.Verdict == Verdict.TooLong ? Why() : null);
    }

    /// <summary>The cheapest for the print first; of those that cost it as little the safest, and of those the one that gains most time.</summary>
    internal static IEnumerable<Remedy> Ordered(IEnumerable<Remedy> remedies) => remedies
        .OrderBy(remedy => Math.Round(remedy.PrintCost.PixelsLost, 3)).ThenBy(remedy => Math.Round(remedy.PrintCost.SafetyLost, 3)).ThenByDescending(remedy => remedy.MarginGained);

    /// <summary>Bearings that hold the set up may stay dark.</summary>
    private IEnumerable<SetChange> DarkStrips() => fit.Reasons.Select(reason => reason.Strip).OfType<BearingSpan>().Distinct().Select(SetChange.Dark);

    private Remedy? Try(SetChange change)
    {
        var settings = planned.Layout.Settings;
        if (change.Apply(new SetVariant(planned.Plan, settings, false)) is not { } variant) return null;
        var day = DayFor(variant.Plan);
        return LayOut(variant).Select(sets => (Sets: sets, Fit: FitSearch.Fit(day, sets))).OrderBy(tried => tried.Fit.Verdict).ThenByDescending(tried => tried.Fit.Margin).FirstOrDefault() is { Sets: { } found } best
            ? Judge(change, found, best.Fit)
            : null;
    }

    private JudgedDay DayFor(Plan plan)
    {
        var key = (plan.Span, string.Join(';', plan.DarkStrips));
        if (days.TryGetValue(key, out var known)) return known;
        var day = light with { Wishes = light.Wishes with { DarkStrips = plan.DarkStrips } };
        return days[key] = plan.Span == planned.Plan.Span ? JudgedDay.Of(day) : SpanPart.Of(day, plan.Span);
    }

    private Remedy? Judge(SetChange change, SetSequence sets, SetFit tried)
    {
        if (tried.Margin is not { } margin) return null;
        if (nearest is null || margin > nearest.Value.Margin) nearest = (change.Change, margin);
        if (!(fit.IsPossible ? tried.Verdict == Verdict.Fits : tried.IsPossible)) return null;
        return new Remedy($"{change.Change}.", PrintCost.Of(planned, sets), sets.Parts, tried, margin - (fit.Margin ?? Duration.Zero));
    }

    /// <summary>The widest part of the span that has its light, at least as wide as the plan allows; of parts as wide, the one with the best chance.</summary>
    private Remedy? LitPart()
    {
        var span = planned.Plan.Span;
        var step = span.Width / PartSteps;
        for (var width = PartSteps - 1; width >= planned.Plan.Chances.LeastSpanShare * PartSteps; width--)
        {
            var tried = Enumerable.Range(0, PartSteps - width + 1)
                .Select(first => Try(SetChange.Part(new BearingSpan(span.From + (step * first), span.From + (step * (first + width)))))).OfType<Remedy>().ToList();
            if (tried.Count > 0) return tried.MaxBy(remedy => remedy.Fit.Chance);
        }
        return null;
    }

    // Every set fewer leaves more room, so the most that fit are found by halving; none at all is a change like the others.
    private Remedy? FewerSets()
    {
        var (works, fails) = (0, fit.Verdict == Verdict.NoLight ? 0 : planned.Layout.Settings.Repeats);
        Remedy? most = null;
        while (fails - works > 1)
        {
            var middle = (works + fails) / 2;
            if (Try(SetChange.Sets(middle)) is { } remedy) (works, most) = (middle, remedy);
            else fails = middle;
        }
        return most;
    }

    /// <summary>What a variant comes to: nothing where it cannot be shot; both orders where the span is split.</summary>
    private IEnumerable<SetSequence> LayOut(SetVariant variant)
    {
        var (plan, span) = (variant.Plan, variant.Plan.Span);
        if (!variant.IsSplit)
        {
            if (LayOut(plan, variant.Settings) is { } whole) yield return new SetSequence(whole);
            yield break;
        }
        var left = LayOut(plan with { Span = new BearingSpan(span.From, span.Centre) }, variant.Settings);
        var right = LayOut(plan with { Span = new BearingSpan(span.Centre, span.To) }, variant.Settings);
        if (left is null || right is null) yield break;
        yield return new SetSequence(left, right);
        yield return new SetSequence(right, left);
    }

    private PlannedSet? LayOut(Plan plan, SetSettings settings)
    {
        try
        {
            var topmost = settings with { Order = settings.Order with { FirstRow = 0 } };
            var set = PlannedSet.Of(plan, topmost, crest, []);
            return set.RowOf(crest) is 0 ? set : PlannedSet.Of(plan, settings with { Order = settings.Order with { FirstRow = set.RowOf(crest) } }, crest, []);
        }
        catch (BadInputException)
        {
            // A change that cannot be shot is no remedy.
            return null;
        }
    }

    private string Why()
    {
        var missing = InWords(-fit.Margin!.Value);
        var cause = fit.FirstProblem is { Problem: FrameProblem.RidgeNeverLit } never
            ? $"the sun never reaches the ridge at bearing {never.Bearing.Degrees:0}° while the window is open"
            : $"the light is {missing} too short for the set as planned";
        return nearest is { } best
            ? $"Nothing fits, because {cause}, and of all changes and pairs of changes tried the best is still {InWords(-best.Margin)} too long ({char.ToLowerInvariant(best.Change[0])}{best.Change[1..]})."
            : $"Nothing fits, because {cause}, and no other way to shoot it can be laid out.";
    }

    private static string InWords(Duration time) => time.TotalSeconds switch
    {
        < 60 => $"{time.TotalSeconds:0} s",
        < 7200 => $"{time.TotalMinutes:0.#} min",
        _ => $"{time.TotalHours:0.#} h",
    };
}
