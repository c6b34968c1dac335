using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>What is offered for sets too long for one morning's light.</summary>
public class RemediesTests
{
    private static readonly Duration Window = ValleyLight.Day.Windows[0].Length;

    [Fact]
    public void Each_remedy_works_when_it_is_laid_out_again_by_itself()
    {
        var (_, fit, cure) = Look(ValleyLight.Plan, TooLong(1.3));
        Assert.Equal(Verdict.TooLong, fit.Verdict);
        Assert.NotEmpty(cure.Remedies);
        Assert.Null(cure.WhyNothingFits);
        Assert.All(cure.Remedies, remedy =>
        {
            var alone = remedy.Set.Plan.Span == ValleyLight.Plan.Span || remedy.Parts.Count > 1 ? JudgedDay.Of(ValleyLight.Day) : SpanPart.Of(ValleyLight.Day, remedy.Set.Plan.Span);
            var again = FitSearch.Fit(alone, new SetSequence(remedy.Parts));
            Assert.True(again.IsPossible, remedy.Change);
            Assert.Equal(again.LatestStart, remedy.Fit.LatestStart);
            Assert.Equal(remedy.Fit.Margin!.Value - fit.Margin!.Value, remedy.MarginGained);
            Assert.True(remedy.MarginGained > Duration.Zero);
            Assert.True(remedy.Set.Layout.Across.Overlap >= 0.3 - 1e-12);
        });
    }

    [Fact]
    public void They_are_ordered_by_what_they_cost_the_print_and_then_by_the_safety_they_cost()
    {
        var cure = Look(WithLenses(85, 200), TooLong(1.3)).Cure;
        var costs = cure.Remedies.Select(remedy => (Math.Round(remedy.PrintCost.PixelsLost, 3), Math.Round(remedy.PrintCost.SafetyLost, 3))).ToList();
        Assert.Equal(costs.Order(), costs);
        // 85 mm instead of 135 mm: as many pixels as (85/135)² over the same view, less what its lower rows show more.
        var shorter = Assert.Single(cure.Remedies, remedy => remedy.Change.Contains("85 mm", StringComparison.Ordinal));
        Assert.Equal(1 - Math.Pow(85.0 / 135, 2), shorter.PrintCost.PixelsLost, 1e-9);
        Assert.Equal((85.0 / 135) - 1, shorter.PrintCost.WidthChange, 1e-9);
        Assert.DoesNotContain(cure.Remedies, remedy => remedy.Change.Contains("200 mm", StringComparison.Ordinal));
    }

    [Fact]
    public void One_row_costs_the_height_it_leaves_out()
    {
        var cure = Look(ValleyLight.Plan, TooLong(1.3)).Cure;
        var oneRow = Assert.Single(cure.Remedies, remedy => remedy.Change.StartsWith("Shoot one row", StringComparison.Ordinal));
        Assert.Equal(1, oneRow.Set.Layout.Rows);
        Assert.Equal(-oneRow.PrintCost.PixelsLost, oneRow.PrintCost.HeightChange, 1e-9);
        Assert.Equal(0, oneRow.PrintCost.WidthChange, 1e-9);
        Assert.Contains("lower", oneRow.Cost, StringComparison.Ordinal);
    }

    [Fact]
    public void As_many_safety_sets_are_kept_as_fit()
    {
        var settings = ValleyLight.Plan.Set with { Repeats = 150 };
        var cure = Look(ValleyLight.Plan, settings).Cure;
        var most = cure.Remedies.Where(remedy => remedy.Parts.Count == 1).Max(remedy => remedy.Set.Clock.Repeats);
        Assert.InRange(most, 1, 149);
        Assert.False(ValleyLight.Fit(settings with { Repeats = most + 1, Order = cure.Remedies[0].Set.Layout.Settings.Order }).IsPossible);
    }

    [Fact]
    public void Two_changes_are_offered_together_only_where_none_is_enough()
    {
        var cure = Look(ValleyLight.Plan, TooLong(1.6) with { Repeats = 1 }).Cure;
        Assert.NotEmpty(cure.Remedies);
        Assert.All(cure.Remedies, remedy => Assert.Contains(';', remedy.Change));
    }

    [Fact]
    public void Nothing_that_does_not_work_is_offered_and_the_answer_says_why_nothing_fits()
    {
        var cure = Look(ValleyLight.Plan, TooLong(40)).Cure;
        Assert.Empty(cure.Remedies);
        Assert.StartsWith("Nothing fits, because the light is", cure.WhyNothingFits, StringComparison.Ordinal);
        Assert.Contains("too long", cure.WhyNothingFits, StringComparison.Ordinal);
    }

    [Fact]
    public void A_set_that_fits_needs_none_and_a_tight_one_is_offered_comfort()
    {
        var (_, fit, cure) = Look(ValleyLight.Plan, ValleyLight.Plan.Set);
        Assert.Equal(Verdict.Fits, fit.Verdict);
        Assert.Empty(cure.Remedies);

        var (_, tight, comfort) = Look(ValleyLight.Plan, TooLong(0.93));
        Assert.Equal(Verdict.Tight, tight.Verdict);
        Assert.NotEmpty(comfort.Remedies);
        Assert.All(comfort.Remedies, remedy => Assert.Equal(Verdict.Fits, remedy.Fit.Verdict));
        Assert.Null(comfort.WhyNothingFits);
    }

    [Fact]
    public void A_split_span_is_shot_half_after_half_and_all_of_it_has_its_light()
    {
        var change = SetChange.Of(ValleyLight.Set(ValleyLight.Plan.Set)).Single(found => found.Change.StartsWith("Split", StringComparison.Ordinal));
        Assert.True(change.Apply(new SetVariant(ValleyLight.Plan, ValleyLight.Plan.Set, false))!.IsSplit);
        Assert.Null(change.Apply(new SetVariant(ValleyLight.Plan, ValleyLight.Plan.Set with { SpareFrames = 0 }, false)));

        var (left, right) = (Half(250, 270), Half(270, 290));
        var sequence = new SetSequence(left, right);
        Assert.Equal(left.Clock.Total.TotalSeconds + right.Clock.Total.TotalSeconds + 4 + 3, sequence.TotalS, 1e-9);
        // The two share ground where they meet.
        Assert.True(left.Layout.Frames.Max(frame => BearingOf(frame)) > right.Layout.Frames.Min(frame => BearingOf(frame)));
        var whole = ValleyLight.Fit(ValleyLight.Plan.Set);
        var split = FitSearch.Fit(ValleyLight.Day, sequence);
        // The last frames of both look along bearings that differ by a column or two, lit a moment apart.
        Assert.Equal(
            whole.Margin!.Value.TotalSeconds + ValleyLight.Set(ValleyLight.Plan.Set).Clock.Exposures[^1].End.TotalSeconds,
            split.Margin!.Value.TotalSeconds + sequence.Shots[^1].ClosesS, 0.5);
    }

    private static double BearingOf(Frame frame) => frame.Bearing.Degrees;

    private static PlannedSet Half(double fromDeg, double toDeg) =>
        ValleyLight.Set(ValleyLight.Plan.Set, ValleyLight.Plan with { Span = BearingSpan.FromDegrees(fromDeg, toDeg) });

    private static Plan WithLenses(params double[] focalMm) =>
        ValleyLight.Plan with { OtherLenses = [.. focalMm.Select(mm => new Lens(Length.FromMillimetres(mm), 11))] };

    private static (PlannedSet Set, SetFit Fit, Cure Cure) Look(Plan plan, SetSettings settings)
    {
        var set = ValleyLight.Set(settings, plan);
        var fit = FitSearch.Fit(ValleyLight.Day, new SetSequence(set));
        return (set, fit, Remedies.For(ValleyLight.Day, set, fit, ValleyLight.Crest));
    }

    /// <summary>One set whose exposures take so many times the window, by waiting longer for the tripod.</summary>
    private static SetSettings TooLong(double windows)
    {
        var settings = ValleyLight.Plan.Set;
        var quick = ValleyLight.Set(settings).Clock;
        var steps = quick.Exposures.Count - 1;
        var more = ((Window * windows) - (quick.Exposures[^1].End - quick.Exposures[0].Start)) / steps;
        return settings with { Times = settings.Times with { Settle = settings.Times.Settle + more } };
    }
}
