using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using Glowcast.Field.Words;
using NodaTime;

namespace Glowcast.Field.Tests.Words;

public class CloudWordsTests
{
    [Fact]
    public void Both_ends_of_a_range_are_said_in_the_unit_of_the_reader()
    {
        var reason = new LikelihoodReason(-2, LikelihoodFinding.CloudAbove) { Base = Length.FromMetres(700), Top = Length.FromMetres(737) };
        Assert.Contains("from 700 to 737 m:", CloudWords.Reason(reason), StringComparison.Ordinal);
        // 700 m are 2296.6 ft and 737 m 2418.0 ft (one foot is 0.3048 m), by fives.
        Assert.Contains("from 2295 to 2420 ft:", CloudWords.Reason(reason, UnitSystem.Imperial), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_finding_has_a_sentence_that_names_a_figure_and_where_it_is_from_and_no_metre_in_imperial_units()
    {
        foreach (var finding in Enum.GetValues<LikelihoodFinding>())
        {
            var reason = new LikelihoodReason(1, finding)
            {
                DepressionC = 1.5,
                StrengthC = 2.5,
                WindKt = 4,
                Base = Length.FromMetres(700),
                Top = Length.FromMetres(900),
                Within = Length.FromMetres(300),
            };
            Assert.Matches(@"\d.*\(.+\)", CloudWords.Reason(reason));
            Assert.DoesNotMatch(@"\d m\b", CloudWords.Reason(reason, UnitSystem.Imperial));
        }
    }

    [Theory]
    [InlineData(50, 2, 0)]
    [InlineData(161, 2, 1)]
    [InlineData(161, 12, 2)]
    public void What_lowers_the_class_is_said(double km, double hours, int times)
    {
        var said = CloudWords.Reasons(CloudDiagnosis.Of(Fog()), new ProfileReach(Length.FromKilometres(km), Duration.FromHours(hours)), UnitSystem.Imperial);
        Assert.Equal(times, said.Count(sentence => sentence.Contains("lowers the class by one", StringComparison.Ordinal)));
        // 161 km are 100 miles.
        Assert.Equal(times > 0, said.Any(sentence => sentence.Contains("100 mi away", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData(LookoutVerdict.Above, 900, "stands 163 m above the top of the deck")]
    [InlineData(LookoutVerdict.At, 740, "at the top of the deck (700 to 737 m)")]
    [InlineData(LookoutVerdict.In, 600, "in the deck (base 500 m, top 700 to 737 m)")]
    [InlineData(LookoutVerdict.Below, 400, "below the deck, whose base is at 500 m")]
    public void A_lookout_is_told_where_it_stands(LookoutVerdict verdict, double heightM, string said)
    {
        var (below, above) = (new ProfileLevel(950, 700, 0, -0.2, null, null), new ProfileLevel(920, 950, 5, -5, null, null));
        var deck = new CloudDeck(
            new MoistLayer(Length.FromMetres(500), Length.FromMetres(737), 0.2, true, false, null), new Inversion(InversionType.Elevated, InversionOrigin.Unclear, below, above), DeckKind.Fog);
        Assert.Contains(said, CloudWords.Lookout(new LookoutInCloud(Length.FromMetres(heightM), verdict, deck, null)), StringComparison.Ordinal);
    }

    private static Profile Fog() => new(
        new Sounding("made", []),
        [new(960, 500, 0, -0.2, 100, 2), new(940, 700, -1, -1.2, 100, 4), new(915, 900, 5, -5, 100, 6), new(700, 3000, -6, -20, 100, 20)], [], []);
}
