using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Tests.Forecast;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>What makes a window, why there is none, and from which side its light comes: situations of a made day of 10,000 s, whose sun climbs for the first 6000.</summary>
public class WindowDecisionTests
{
    private const double LengthS = 10_000;
    private const int Columns = 200;

    private static readonly Stretch Morning = new(0, 6000);
    private static readonly Stretch Evening = new(6000, LengthS);
    private static readonly LightThresholds Usual = LightThresholds.Usual;

    // An end known to ± σ₁, the other to ± σ₂, in a window of so many seconds.
    [Theory]
    [InlineData(600, 30, 40, true)]
    [InlineData(60, 30, 60, true)]
    [InlineData(55, 30, 60, false)]
    [InlineData(55, 29_000, 10, false)]
    [InlineData(3600, 3000, 3500, true)]
    public void Light_that_is_shorter_than_either_of_its_ends_is_known_to_is_no_window(double lengthS, double startS, double endS, bool isWindow)
    {
        var window = ValleyLight.Day.Windows[0];
        var changed = window with
        {
            Start = window.Start with { Uncertainty = new TimingUncertainty(startS, 0, 0) },
            End = window.End with { At = window.Start.At + Duration.FromSeconds(lengthS), Uncertainty = new TimingUncertainty(0, endS, 0) },
        };
        Assert.Equal(isWindow, WindowSearch.IsKnown(changed));
    }

    /// <param name="together">Of 200 bearings, how many are lit together from 1000 to 2000 s.</param>
    /// <param name="later">How many more only from 3000 to 4000 s.</param>
    /// <param name="valleyS">From when on the valley is lit.</param>
    [Theory]
    [InlineData(0, 0, 9000, NoWindowReason.RidgeNeverLit, "none of it is lit all day")]
    [InlineData(179, 21, 9000, NoWindowReason.RidgeNeverLitEnough, "at most 89.5 % of it is lit")]
    [InlineData(100, 100, 9000, NoWindowReason.RidgeNeverLitEnough, "at most 50 % of it is lit")]
    [InlineData(20, 0, 9000, NoWindowReason.RidgeNeverLitEnough, "25 % of the ridge in the picture; at most 10 %")]
    [InlineData(200, 0, 500, NoWindowReason.ValleyLit, "more than 20 % of the valley is lit too")]
    [InlineData(200, 0, 9000, NoWindowReason.TooUnsure, "shorter than its ends are known to")]
    [InlineData(60, 0, 9000, NoWindowReason.TooUnsure, "shorter than its ends are known to")]
    public void Each_cause_of_no_window_is_told_from_the_others(int together, int later, double valleyS, NoWindowReason reason, string words)
    {
        var columns = Enumerable.Range(0, Columns).Select(column => Lit(column < together ? new(1000, 2000) : column < together + later ? new(3000, 4000) : null)).ToList();
        var none = NoWindow.Of(RidgeOfDay.Of(columns, [Morning, Evening], LengthS), Lit(new(valleyS, LengthS)), Usual, valleyPart: 0.5, Instant.FromUtc(2026, 10, 20, 5, 0));
        Assert.Equal(reason, none.Reason);
        Assert.Contains(words, none.Sentence, StringComparison.Ordinal);
    }

    // A valley that takes up no more than a fiftieth of the picture decides nothing, one that takes up a twentieth may be lit to two fifths.
    [Theory]
    [InlineData(0.5, 0.2)]
    [InlineData(0.05, 0.4)]
    [InlineData(0.02, 1)]
    [InlineData(0.001, 1)]
    [InlineData(0, 1)]
    public void The_smaller_the_valley_in_the_picture_the_more_of_it_may_be_lit(double part, double most) => Assert.Equal(most, Usual.MostValley(part), 1e-12);

    [Theory]
    [InlineData(0.9, 0.9, "90 %")]
    [InlineData(0.895, 0.9, "89.5 %")]
    [InlineData(0.8996, 0.9, "89.96 %")]
    [InlineData(0.2004, 0.2, "20.04 %")]
    [InlineData(0.75, 0.9, "75 %")]
    public void A_share_that_misses_its_bound_is_not_rounded_to_it(double share, double bound, string words) => Assert.Equal(words, NoWindow.Percent(share, bound));

    // Light of the outer columns and of one column at the right that stands out; when it comes.
    [Theory]
    [InlineData(100, 400, 400, SweepSide.Left)]
    [InlineData(400, 100, 100, SweepSide.Right)]
    [InlineData(100, 400, 50, SweepSide.Left)]
    [InlineData(100, 130, 130, SweepSide.None)]
    public void A_sweep_names_bearings_of_the_sides_that_it_goes_between(double leftS, double rightS, double peakS, SweepSide from)
    {
        var span = Span(column => [new(column == Columns - 20 ? peakS : leftS + ((rightS - leftS) * column / (Columns - 1)), 5000)]);
        var sweep = LightSweep.GainOf(span, 3000)!;
        Assert.Equal(from, sweep.From);
        if (from == SweepSide.None) return;
        var (first, last) = (ColumnOf(sweep.First), ColumnOf(sweep.Last));
        Assert.True(from == SweepSide.Left ? first < Columns / 3 && last >= Columns * 2 / 3 : first >= Columns * 2 / 3 && last < Columns / 3, $"{first} {last}");
    }

    [Theory]
    [InlineData(5000, true)]
    [InlineData(7000, false)]
    public void Light_that_lasts_into_the_other_half_of_the_day_is_not_said_to_go(double endS, bool isSaid) =>
        Assert.Equal(isSaid, LightSweep.LossOf(Span(column => [new(100, endS + column)]), 3000) is not null);

    private static ShareOverTime Lit(Stretch? stretch) => ShareOverTime.Of([(stretch is { } time ? [time] : Array.Empty<Stretch>(), 1.0)], LengthS);

    private static SpanLight Span(Func<int, IReadOnlyList<Stretch>> lit) => new(
        [.. Enumerable.Range(0, Columns).Select(column => Azimuth.FromDegrees(245.125 + (0.25 * column)))], [.. Enumerable.Range(0, Columns).Select(lit)],
        [new Stretch(0, 4000)], 0.9, LengthS)
    {
        Halves = [Morning, Evening],
    };

    private static int ColumnOf(Azimuth bearing) => (int)Math.Round((bearing.Degrees - 245.125) / 0.25);
}
