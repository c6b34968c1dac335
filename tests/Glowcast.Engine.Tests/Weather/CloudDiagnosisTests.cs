using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Tests.Weather;

public class CloudDiagnosisTests
{
    [Fact]
    public void A_valley_fog_is_a_deck_on_the_ground_that_is_likely()
    {
        var diagnosis = CloudDiagnosis.Of(MadeProfile.Fog());
        var inversion = Assert.Single(diagnosis.Inversions);
        Assert.Equal((700, 900, 6.0), (inversion.Base.Metres, inversion.Top.Metres, inversion.StrengthC));
        Assert.Equal(InversionType.Elevated, inversion.Type);
        var deck = Assert.Single(diagnosis.Decks);
        Assert.Equal(DeckKind.Fog, deck.Kind);
        // 0.2 °C apart at 700 m, 10 °C at 900 m.
        Assert.Equal((500, 700, 700 + (200 * 1.8 / 9.8)), (deck.Base.Metres, deck.TopLow.Metres, deck.TopHigh.Metres));
        // Saturated +3, strong lid +2, dry above +1, light wind +1.
        Assert.Equal((7, Likelihood.High), (diagnosis.Score, diagnosis.Class));
    }

    [Fact]
    public void A_stratus_floats_under_sinking_air()
    {
        var diagnosis = CloudDiagnosis.Of(MadeProfile.Stratus());
        Assert.Equal(InversionOrigin.Subsidence, Assert.Single(diagnosis.Inversions).Origin);
        Assert.Equal(DeckKind.Stratus, diagnosis.Deck!.Kind);
        Assert.InRange(diagnosis.Deck.Base.Metres, 600, 800);
        Assert.Equal(1200, diagnosis.Deck.TopLow.Metres);
        Assert.InRange(diagnosis.Deck.TopHigh.Metres, 1250, 1350);
    }

    [Fact]
    public void Wind_makes_stratus_of_fog()
    {
        Assert.Equal(DeckKind.Fog, CloudDiagnosis.Of(MadeProfile.Fog(windKt: 10)).Deck!.Kind);
        Assert.Equal(DeckKind.Stratus, CloudDiagnosis.Of(MadeProfile.Fog(windKt: 11)).Deck!.Kind);
    }

    [Fact]
    public void Air_that_is_moist_through_the_whole_inversion_is_a_front_and_no_deck()
    {
        var diagnosis = CloudDiagnosis.Of(MadeProfile.Of((0, 4, 3.8), (500, 2, 1.8), (800, 7, 6.5), (1500, 4, 3.5), (3000, -4, -12)));
        Assert.Equal(InversionOrigin.Frontal, Assert.Single(diagnosis.Inversions).Origin);
        Assert.Empty(diagnosis.Decks);
        Assert.NotEqual(Likelihood.High, diagnosis.Class);
    }

    [Fact]
    public void Without_an_inversion_a_sea_of_cloud_is_unlikely_however_moist_the_air()
    {
        var diagnosis = CloudDiagnosis.Of(MadeProfile.Of((0, 10, 9.9), (1000, 4, 3.9), (2000, -2, -10)));
        Assert.Empty(diagnosis.Inversions);
        Assert.Equal(Likelihood.Unlikely, diagnosis.Class);
    }

    [Theory]
    [InlineData(0.99, 0)]
    [InlineData(1.0, 1)]
    public void The_least_strength_of_an_inversion_is_one_degree(double strengthC, int inversions) =>
        Assert.Equal(inversions, CloudDiagnosis.Of(MadeProfile.Of((0, 5, 0), (100, 5 + strengthC, 0), (1000, 0, -5), (2000, -6, -20))).Inversions.Count);

    [Theory]
    [InlineData(29, 0)]
    [InlineData(30, 1)]
    public void The_least_depth_of_an_inversion_is_thirty_metres(double depthM, int inversions) =>
        Assert.Equal(inversions, CloudDiagnosis.Of(MadeProfile.Of((0, 5, 0), (depthM, 8, 0), (1000, 0, -5), (2000, -6, -20))).Inversions.Count);

    [Theory]
    [InlineData(100, 0.5, 1)]
    [InlineData(101, 0.5, 2)]
    [InlineData(100, 0.6, 2)]
    public void Two_inversions_with_little_between_them_are_one(double gapM, double dropC, int inversions) => Assert.Equal(
        inversions, CloudDiagnosis.Of(MadeProfile.Of((0, 0, -5), (200, 2, -5), (200 + gapM, 2 - dropC, -6), (600, 5, -9), (2000, -3, -20))).Inversions.Count);

    [Fact]
    public void An_inversion_that_begins_above_3000_m_over_the_ground_is_not_looked_at() =>
        Assert.Empty(CloudDiagnosis.Of(MadeProfile.Of((500, 5, 0), (3600, -15, -20), (4000, -10, -20), (5000, -17, -30))).Inversions);

    [Fact]
    public void Another_layer_above_counts_against_it()
    {
        var without = CloudDiagnosis.Of(MadeProfile.Fog());
        var with = CloudDiagnosis.Of(MadeProfile.Of(3, (500, 0, -0.2), (700, -1, -1.2), (900, 5, -5), (1500, 3, -15), (3000, -6, -7), (3100, -7, -8), (5000, -18, -40)));
        Assert.Equal(without.Score - 2, with.Score);
        Assert.Contains(with.Reasons, reason => reason is { Points: -2, Finding: LikelihoodFinding.CloudAbove });
    }

    [Theory]
    [InlineData(450, LookoutVerdict.Below)]
    [InlineData(600, LookoutVerdict.In)]
    [InlineData(650, LookoutVerdict.At)]
    [InlineData(786, LookoutVerdict.At)]
    [InlineData(787, LookoutVerdict.Above)]
    public void The_lookout_stands_above_at_in_or_below(double heightM, LookoutVerdict verdict) =>
        Assert.Equal(verdict, CloudDiagnosis.Of(MadeProfile.Fog()).LookoutAt(Length.FromMetres(heightM)).Verdict);

    [Theory]
    [InlineData(100, 6, Likelihood.High)]
    [InlineData(101, 6, Likelihood.Moderate)]
    [InlineData(100, 6.1, Likelihood.Moderate)]
    [InlineData(300, 12, Likelihood.Low)]
    public void Distance_and_age_lower_the_class(double km, double hours, Likelihood likelihood)
    {
        var diagnosis = CloudDiagnosis.Of(MadeProfile.Fog());
        var reach = new ProfileReach(Length.FromKilometres(km), Duration.FromHours(hours));
        Assert.Equal(likelihood, diagnosis.ClassAt(reach));
    }

    [Fact]
    public void The_class_does_not_fall_below_unlikely()
    {
        var diagnosis = CloudDiagnosis.Of(MadeProfile.Of((0, 10, 9.9), (1000, 4, 3.9), (2000, -2, -10)));
        Assert.Equal(Likelihood.Unlikely, diagnosis.ClassAt(new ProfileReach(Length.FromKilometres(500), Duration.FromHours(48))));
    }

    [Fact]
    public void The_heat_of_burn_off_is_that_of_its_equation()
    {
        var profile = MadeProfile.Fog();
        var burnOff = CloudDiagnosis.Of(profile).BurnOff!;
        var top = CloudDiagnosis.Of(profile).Deck!.TopHigh.Metres;
        // The ground's air at the clearing temperature condenses just at the deck's top.
        Assert.Equal(top - 500, MoistAir.LiftedCondensation(profile.Surface.PressureHPa, burnOff.ClearingTemperatureC, -0.2).HeightM, 0.01);
        // Half of density · heat capacity · warming · depth: dry air of 951.85 hPa and 0 °C has 1.2140 kg/m³, its vapour takes 0.3 % off.
        Assert.Equal(0.5 * 1.2140 * 1005.7 * burnOff.ClearingTemperatureC * (top - 500) / 1e6, burnOff.HeatMJPerM2, 0.002);
        Assert.Equal(burnOff.HeatMJPerM2 * 1e6 / 150 / 3600, burnOff.EarliestHours, 1e-9);
        Assert.Equal(burnOff.HeatMJPerM2 * 1e6 / 40 / 3600, burnOff.LatestHours, 1e-9);
    }

    [Fact]
    public void A_deep_deck_is_not_said_to_clear_within_a_day()
    {
        var deep = CloudDiagnosis.Of(MadeProfile.Of((0, 14, 8), (800, 9, 8.6), (1900, 3, 2.8), (2300, 8, -10), (4000, -6, -25))).BurnOff!;
        Assert.False(deep.IsWithinADay);
        Assert.Contains("more heat than one day's sun gives", deep.Sentence, StringComparison.Ordinal);
        Assert.True(CloudDiagnosis.Of(MadeProfile.Fog()).BurnOff!.IsWithinADay);
    }
}
